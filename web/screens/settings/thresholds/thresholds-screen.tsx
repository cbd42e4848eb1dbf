import { useEffect } from 'react';
import { useThresholds } from '#web/api/use-thresholds.ts';
import styles from '#web/screens/settings/settings.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { ThresholdsForm } from './thresholds-form.tsx';

/** Where the grades begin, for the whole fleet. */
export function ThresholdsScreen() {
  const { data, isPending, isError, error, refetch } = useThresholds();
  useEffect(() => {
    document.title = 'Thresholds · Slipdrift';
  }, []);
  return (
    <div className={styles.screen}>
      <header className={styles.words}>
        <h1>Thresholds</h1>
        <p>
          Where each grade begins, for the whole fleet. The order of the list follows from chances and costs
          and does not move with them.
        </p>
      </header>
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the thresholds</p>}
      {data !== undefined && <ThresholdsForm stored={data} />}
    </div>
  );
}
