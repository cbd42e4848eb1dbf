import { type Grade, grades } from '#server/contract/words.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import styles from './effect.module.css';
import { sayMove } from './say-effect.ts';

interface Props {
  before: Record<Grade, number>;
  after: Record<Grade, number>;
}

/** How many vehicles of each grade, before and after. */
export const GradeMoves = ({ before, after }: Props) => (
  <dl className={styles.moves}>
    {grades.map((grade) => (
      <div key={grade} data-moves={before[grade] !== after[grade]}>
        <dt>
          <GradeMark grade={grade} />
        </dt>
        <dd>{sayMove(before[grade], after[grade])}</dd>
      </div>
    ))}
  </dl>
);
