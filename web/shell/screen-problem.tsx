import { type ErrorComponentProps, useRouter } from '@tanstack/react-router';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './shell.module.css';

export function ScreenProblem({ error, reset }: ErrorComponentProps) {
  const router = useRouter();
  const again = () => {
    reset();
    void router.invalidate();
  };
  return (
    <div className={styles.page}>
      <ProblemNote error={error} onRetry={again} />
    </div>
  );
}
