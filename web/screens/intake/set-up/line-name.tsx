import { formatWhole } from '#web/format/format-number.ts';
import styles from './set-up.module.css';

interface Props {
  line: number | null;
  /** what stands there where it is of no line */
  none: string;
}

export const LineName = ({ line, none }: Props) =>
  line === null ? (
    none
  ) : (
    <>
      <span className={styles.lineWord}>Line </span>
      {formatWhole(line)}
    </>
  );
