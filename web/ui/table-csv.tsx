import { nameFile } from '#web/format/name-file.ts';
import { type PlainTable, writeCsv } from '#web/format/write-csv.ts';
import { Button } from './button.tsx';
import { saveText } from './save-file.ts';
import styles from './table-csv.module.css';

interface Props {
  /** Asked when pressed. */
  table: () => PlainTable;
  /** What the table shows, for the file's name; screen and day are added. */
  name: string;
}

/** A quiet button beside a table that keeps it as a CSV file. */
export const TableCsv = ({ table, name }: Props) => (
  <span className={styles.line}>
    <Button
      kind="quiet"
      aria-label={`Download ${name} as CSV`}
      onClick={() =>
        saveText(
          `${nameFile([document.title.split(' · ')[0] ?? '', name], new Date())}.csv`,
          'text/csv',
          writeCsv(table()),
        )
      }
    >
      CSV
    </Button>
  </span>
);
