import type { Grade } from '#server/contract/words.ts';
import styles from './grade-mark.module.css';

/**
 * A rail in small: the bar at the left is the limit, the block how near the vehicle is to it.
 * Five different shapes, so that the grade is told without its tone.
 */
const shapes: Record<Grade, React.ReactNode> = {
  hold: <rect x="1" y="1" width="11" height="12" />,
  book: <rect x="6" y="2.5" width="6" height="9" />,
  watch: <rect x="13" y="4" width="5" height="6" />,
  steady: null,
  unknown: null,
};

export function GradeMark({ grade, withWord = true }: { grade: Grade; withWord?: boolean }) {
  return (
    <span className={styles.grade} data-grade={grade}>
      <svg className={styles.mark} width="20" height="14" viewBox="0 0 20 14" aria-hidden="true">
        <path d="M2 0.5v13" strokeWidth="2" />
        <path
          d="M2 7h17"
          strokeWidth="1.5"
          strokeDasharray={grade === 'unknown' ? '1.5 2.75' : undefined}
          strokeDashoffset={grade === 'unknown' ? -3 : undefined}
        />
        {shapes[grade]}
      </svg>
      {withWord ? <span>{grade}</span> : <span className="only-spoken">{grade}</span>}
    </span>
  );
}
