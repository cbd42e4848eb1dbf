import type { Session } from '#server/contract/people.ts';
import { useSignIn } from '#web/api/use-session.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { roleWords } from '#web/ui/role-words.ts';
import styles from './sign-in-screen.module.css';

/** The demo lets everybody in, as whom they like, with one press. */
export function DemoAccounts({ accounts }: { accounts: NonNullable<Session['demo']> }) {
  const signIn = useSignIn();
  return (
    <section className={styles.demo} aria-labelledby="demo-title">
      <h2 id="demo-title">This is a demo: choose who you are</h2>
      {signIn.isError && <ProblemNote error={signIn.error} />}
      <ul className={styles.accounts}>
        {accounts.map(({ name, email, role, password }) => (
          <li key={email} className={styles.account}>
            <p>
              <strong>{role}</strong>
              <span className={styles.meaning}>{roleWords[role]}</span>
            </p>
            <Button
              kind={role === 'planner' ? 'main' : 'plain'}
              disabled={signIn.isPending}
              onClick={() => signIn.mutate({ email, password })}
            >
              Sign in as {name}
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
