import type { SetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import styles from './set-up.module.css';

/** What each column of the file is. */
export const ColumnsTable = ({ file }: { file: SetUpFile }) => (
  <details className={styles.columns}>
    <summary>Columns of the file</summary>
    <p className={styles.soft}>
      In any order; only those marked must be there. An empty cell leaves what is on record as it is. A cell
      with <code>-</code> alone takes it away, where that can be.
    </p>
    <RowTable label={`Columns of a file of ${file.kind}`}>
      <thead>
        <tr>
          <th scope="col">Column</th>
          <th scope="col" data-words>
            Meaning
          </th>
          <th scope="col" data-words>
            Unit or form
          </th>
          <th scope="col" data-words>
            Example
          </th>
        </tr>
      </thead>
      <tbody>
        {file.columns.map(({ name, also, unit, needed, clears, example, meaning }) => (
          <tr key={name}>
            <th scope="row">
              <code>{name}</code>
              {also !== undefined && (
                <>
                  {' '}
                  or <code>{also.name}</code>
                </>
              )}
              {needed && <small> must be there</small>}
            </th>
            <Cell label="Meaning" isWords>
              {meaning}
            </Cell>
            <Cell label="Unit or form" isWords>
              {unit}
              {also !== undefined && `, or ${also.unit}`}
              {clears && (
                <>
                  ; <code>-</code> takes it away
                </>
              )}
            </Cell>
            <Cell label="Example" isWords>
              <code>{example}</code>
            </Cell>
          </tr>
        ))}
      </tbody>
    </RowTable>
  </details>
);
