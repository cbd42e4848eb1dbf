import type { Verdict } from '#server/contract/words.ts';
import { verdictWords } from './packet-words.ts';
import styles from './verdict-mark.module.css';

/** A word with its own shape, so that tone is not the only carrier: a ring, a block, a dashed line. */
export function VerdictMark({ verdict }: { verdict: Verdict }) {
  return (
    <span className={styles.verdict} data-verdict={verdict}>
      <svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
        {verdict === 'passed' && <circle cx="7" cy="7" r="4.5" fill="none" strokeWidth="2" />}
        {verdict === 'failed' && <rect x="1.5" y="1.5" width="11" height="11" />}
        {verdict === 'unclear' && <path d="M1 7h12" strokeWidth="3" strokeDasharray="3 2" />}
      </svg>
      {verdictWords[verdict]}
    </span>
  );
}
