import { Fragment, useEffect, useId, useRef, useState } from 'react';
import styles from './chart.module.css';
import { type NumbersTable, writeTabbed } from './numbers.ts';

interface Props {
  tables: readonly NumbersTable[];
  /** One of them is wanted as a file. */
  onSave: (table: NumbersTable) => void;
}

export function NumbersView({ tables, onSave }: Props) {
  const id = useId();
  const all = useRef<HTMLDivElement>(null);
  const area = useRef<HTMLElement>(null);
  const [note, setNote] = useState('');
  // The key opens them below a chart that may fill the window: they are brought into it.
  useEffect(() => all.current?.scrollIntoView({ block: 'nearest' }), []);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(writeTabbed(tables));
      setNote('copied');
    } catch {
      // Without HTTPS a browser keeps its clipboard closed to pages: mark the text for the reader's own key.
      if (area.current !== null) window.getSelection()?.selectAllChildren(area.current);
      setNote('marked: copy with Ctrl+C');
    }
  };
  return (
    <div className={styles.numbers} ref={all}>
      <div className={styles.numbersTools}>
        <button type="button" className={styles.numbersButton} onClick={() => void copy()}>
          Copy all
        </button>
        <span role="status">{note}</span>
      </div>
      <section
        className={styles.numbersArea}
        ref={area}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by key
        tabIndex={0}
        aria-label="Numbers of the chart"
      >
        {tables.map((table, t) => (
          <Fragment key={table.caption}>
            <p className={styles.tableHead}>
              <span id={`${id}-${t}`}>{table.caption}</span>
              <button
                type="button"
                className={styles.numbersButton}
                aria-label={`CSV of ${table.caption}`}
                onClick={() => onSave(table)}
              >
                CSV
              </button>
            </p>
            <table aria-labelledby={`${id}-${t}`}>
              <thead>
                <tr>
                  {table.columns.map((column) => (
                    <th key={column.title} scope="col" data-kind={column.kind}>
                      {column.title}
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
                        {cell}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </Fragment>
        ))}
      </section>
    </div>
  );
}
