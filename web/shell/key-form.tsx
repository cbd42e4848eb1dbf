import { useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useEffect, useId, useRef } from 'react';
import { accessKey } from '#web/api/access-key.ts';
import styles from './shell.module.css';

/** Stands in place of a screen where the server wants a key: what was asked for is shown once it is given. */
export function KeyForm({ isWrong }: { isWrong: boolean }) {
  const queries = useQueryClient();
  const field = useRef<HTMLInputElement>(null);
  const wrongId = useId();
  useEffect(() => field.current?.focus(), []);

  const take = (event: FormEvent) => {
    event.preventDefault();
    const given = field.current?.value.trim() ?? '';
    if (given === '') return;
    queries.clear();
    accessKey.hold(given);
  };
  return (
    <form className={`${styles.page} ${styles.keyForm}`} onSubmit={take}>
      <h1>A key is needed</h1>
      <p>
        This installation shows its fleet only to those who hold its key. Whoever set it up has it, as
        SLIPDRIFT_API_KEY. It is kept in this tab until the tab is closed.
      </p>
      <label>
        Key
        <input
          ref={field}
          type="password"
          autoComplete="current-password"
          required
          aria-invalid={isWrong}
          aria-describedby={isWrong ? wrongId : undefined}
        />
      </label>
      {isWrong && (
        <p id={wrongId} className={styles.wrong} role="alert">
          This key is not known here.
        </p>
      )}
      <button type="submit" className={styles.button}>
        Show the fleet
      </button>
    </form>
  );
}
