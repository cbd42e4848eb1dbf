import { ProblemError } from '#web/api/problem-error.ts';
import styles from './trace-drop.module.css';

const mostShown = 5;

/** Which lines of a file were at fault, the first few. */
export function FaultLines({ error }: { error: unknown }) {
  if (!(error instanceof ProblemError)) return null;
  const faults = error.errors.filter(({ line }) => line !== undefined);
  if (faults.length === 0) return null;
  return (
    <ul className={styles.faults}>
      {faults.slice(0, mostShown).map(({ line, field, message }) => (
        <li key={`${line} ${field}`}>
          line {line}, {field} {message}
        </li>
      ))}
    </ul>
  );
}
