import { useCompanySignIn } from '#web/api/use-session.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './sign-in-screen.module.css';

export function CompanySignIn({ name, to }: { name: string; to: string }) {
  const start = useCompanySignIn();
  const go = () => start.mutate(to, { onSuccess: ({ url }) => window.location.assign(url) });
  return (
    <div className={styles.company}>
      <Button kind="main" disabled={start.isPending || start.isSuccess} onClick={go}>
        Sign in through {name}
      </Button>
      {start.isError && <ProblemNote error={start.error} />}
      <p className={styles.or}>or with a password of Slipdrift</p>
    </div>
  );
}
