import type { Grade } from '#server/contract/words.ts';
import styles from './grade-mark.module.css';
import { gradeBlocks } from './grade-shape.ts';

export function GradeMark({ grade, withWord = true }: { grade: Grade; withWord?: boolean }) {
  const block = gradeBlocks[grade];
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
        {block !== null && <rect {...block} />}
      </svg>
      {withWord ? <span>{grade}</span> : <span className="only-spoken">{grade}</span>}
    </span>
  );
}
