import type { StoredTable } from '#server/contract/storage.ts';
import { formatBytes } from '#web/format/format-bytes.ts';
import { formatWhole } from '#web/format/format-number.ts';
import settings from '#web/screens/settings/settings.module.css';
import styles from './storage.module.css';

/** The largest tables, with what ends their rows. */
export function TablesTable({ tables }: { tables: readonly StoredTable[] }) {
  return (
    <section className={settings.stack} aria-labelledby="storage-tables">
      <h2 id="storage-tables">Largest tables</h2>
      <table className={`${settings.table} ${styles.figures}`}>
        <caption className="only-spoken">Tables, the largest first; their rows are estimates</caption>
        <thead>
          <tr>
            <th scope="col">Table</th>
            <th scope="col">What ends its rows</th>
            <th scope="col" data-kind="figure">
              Rows
            </th>
            <th scope="col" data-kind="figure">
              Size
            </th>
            <th scope="col" data-kind="figure" className={settings.last}>
              Index
            </th>
          </tr>
        </thead>
        <tbody>
          {tables.map(({ name, holds, ends, rows, heap_bytes, index_bytes }) => (
            <tr key={name}>
              <td>
                {name}
                <small>{holds}</small>
              </td>
              <td data-name="What ends it">{ends}</td>
              <td data-name="Rows" data-kind="figure">
                about {formatWhole(rows)}
              </td>
              <td data-name="Size" data-kind="figure">
                {formatBytes(heap_bytes)}
              </td>
              <td data-name="Index" data-kind="figure" className={settings.last}>
                {formatBytes(index_bytes)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
