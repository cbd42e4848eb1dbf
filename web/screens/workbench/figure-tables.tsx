import { useState } from 'react';
import type { NumbersTable } from '#web/charts/numbers.ts';
import { writeTabbed } from '#web/charts/numbers.ts';
import { nameFile } from '#web/format/name-file.ts';
import { Button } from '#web/ui/button.tsx';
import parts from '#web/ui/parts.module.css';
import { saveText } from '#web/ui/save-file.ts';
import { ScrollArea } from '#web/ui/scroll-area.tsx';
import { TableCsv } from '#web/ui/table-csv.tsx';
import styles from './workbench.module.css';

interface Props {
  tables: readonly NumbersTable[];
  /** the whole answer, as the server gave it */
  reply: object;
  name: string;
}

/** All figures as tables, to be read, copied or kept. */
export function FigureTables({ tables, reply, name }: Props) {
  const [note, setNote] = useState('');
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(writeTabbed(tables));
      setNote('copied');
    } catch {
      setNote('This page may not use the clipboard: take the CSV.');
    }
  };
  return (
    <section className={parts.part}>
      <div className={styles.partHead}>
        <h2>Figures</h2>
        <Button kind="quiet" onClick={() => void copy()}>
          Copy all
        </Button>
        <Button
          kind="quiet"
          aria-label="Download the whole answer as JSON"
          onClick={() =>
            saveText(
              `${nameFile(['workbench', name], new Date())}.json`,
              'application/json',
              JSON.stringify(reply, null, 1),
            )
          }
        >
          JSON
        </Button>
        <span role="status" className={styles.soft}>
          {note}
        </span>
      </div>
      <div className={styles.figureTables}>
        {tables.map((table) => (
          <div key={table.caption} className={parts.part}>
            <div className={styles.partHead}>
              <h3>{table.caption}</h3>
              <TableCsv name={`${name} ${table.caption}`} table={() => table} />
            </div>
            <ScrollArea label={table.caption}>
              <table className={styles.table}>
                <thead>
                  <tr>
                    {table.columns.map(({ title, kind }) => (
                      <th key={title} scope="col" data-kind={kind}>
                        {title}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {table.rows.map((row, i) => (
                    // biome-ignore lint/suspicious/noArrayIndexKey: rows have no identity of their own and never move
                    <tr key={i}>
                      {row.map((cell, j) => (
                        <td key={table.columns[j]?.title} data-kind={table.columns[j]?.kind}>
                          {j === 0 && row[0] === table.rows[i - 1]?.[0] && table.columns[0]?.kind === 'word'
                            ? ''
                            : cell}
                        </td>
                      ))}
                    </tr>
                  ))}
                </tbody>
              </table>
            </ScrollArea>
          </div>
        ))}
      </div>
    </section>
  );
}
