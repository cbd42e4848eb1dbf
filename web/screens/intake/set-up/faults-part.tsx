import type { FieldError } from '#server/contract/problems.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import { LineName } from './line-name.tsx';
import styles from './set-up.module.css';

const MOST_ROWS = 100;

/** What must be put right before any of the file is taken, line by line. */
export const FaultsPart = ({ name, faults }: { name: string; faults: readonly FieldError[] }) => (
  <div className={styles.part}>
    <p role="alert" className={styles.sentence}>
      {name} has {formatWhole(faults.length)} {faults.length === 1 ? 'fault' : 'faults'}. Nothing was changed:
      put {faults.length === 1 ? 'it' : 'them'} right and choose the file again.
    </p>
    <RowTable label="Faults of the file">
      <thead>
        <tr>
          <th scope="col">Line</th>
          <th scope="col" data-words>
            Column
          </th>
          <th scope="col" data-words>
            What is wrong
          </th>
        </tr>
      </thead>
      <tbody>
        {faults.slice(0, MOST_ROWS).map(({ line, field, message }) => (
          <tr key={`${line} ${field} ${message}`}>
            <th scope="row">
              <LineName line={line ?? null} none="all" />
            </th>
            <Cell label="Column" isWords>
              {field}
            </Cell>
            <Cell label="What is wrong" isWords>
              {message}
            </Cell>
          </tr>
        ))}
      </tbody>
    </RowTable>
    {faults.length > MOST_ROWS && (
      <p className={styles.soft}>And {formatWhole(faults.length - MOST_ROWS)} more.</p>
    )}
  </div>
);
