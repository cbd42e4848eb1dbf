import { Link } from '@tanstack/react-router';
import styles from './shell.module.css';

export function NotFound() {
  return (
    <div className={styles.page}>
      <h1>No such page</h1>
      <p>
        Nothing is kept under this address. <Link to="/">Go to the inspection list</Link>
      </p>
    </div>
  );
}
