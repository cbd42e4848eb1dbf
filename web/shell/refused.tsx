import { Link } from '@tanstack/react-router';
import { useEffect } from 'react';
import type { Person } from '#server/contract/people.ts';
import styles from './shell.module.css';

export function Refused({ words, person }: { words: string; person: Person }) {
  useEffect(() => {
    document.title = 'Not for you · Slipdrift';
  }, []);
  return (
    <div className={styles.page}>
      <h1>This is not open to you</h1>
      <p>{words}</p>
      <p>
        You are signed in as {person.name}, {person.role}. <Link to="/">Go to the list</Link>
      </p>
    </div>
  );
}
