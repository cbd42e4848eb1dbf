import { useSession } from '#web/api/use-session.ts';
import { Button } from '#web/ui/button.tsx';
import styles from './sign-in-screen.module.css';

/** Before the first account: nothing to sign in with, but where to begin. */
export function NoAccountYet() {
  const { refetch } = useSession();
  return (
    <div className={styles.page}>
      <div className={styles.words}>
        <h1>No account yet</h1>
        <p className={styles.lead}>
          This Slipdrift is new. When it started, it named a one-time address that makes the first admin. Look
          for it in what the server wrote at its start, and open it in this browser.
        </p>
        <p>
          The address ends in <code>/welcome#…</code>, works once and for a limited time. The first admin then
          invites everybody else.
        </p>
        <p>
          <Button onClick={() => void refetch()}>Look again</Button>
        </p>
      </div>
    </div>
  );
}
