import type { Outlook } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { gradeMeaning } from '#web/ui/grade-words.ts';
import styles from './grade-counts.module.css';
import { joinGrades, splitGrades } from './list-search.ts';
import type { ListState } from './use-list-state.ts';

interface Props {
  counts: Outlook['counts'] | null;
  chosen: string | undefined;
  change: ListState['change'];
}

/** How many vehicles stand in each grade; a press shows only these, a second press all again. */
export function GradeCounts({ counts, chosen, change }: Props) {
  const pressed = splitGrades(chosen);
  const toggle = (grade: Grade) => {
    const next = pressed.includes(grade) ? pressed.filter((one) => one !== grade) : [...pressed, grade];
    change({ grade: joinGrades(grades.filter((one) => next.includes(one))) });
  };
  return (
    <ul className={styles.counts} aria-label="Vehicles by grade">
      {grades.map((grade) => (
        <li key={grade}>
          <button
            type="button"
            className={styles.count}
            aria-pressed={pressed.includes(grade)}
            data-dimmed={pressed.length > 0 && !pressed.includes(grade)}
            onClick={() => toggle(grade)}
          >
            <span className={styles.number}>{counts === null ? '\u00a0' : formatWhole(counts[grade])}</span>
            <GradeMark grade={grade} />
            <span className={styles.meaning}>{gradeMeaning[grade]}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}
