import { Link } from '@tanstack/react-router';
import type { StoredMonth } from '#server/contract/storage.ts';
import { formatBytes } from '#web/format/format-bytes.ts';
import { formatDayAndYear, formatMonthAndYear } from '#web/format/format-day.ts';
import { formatWhole } from '#web/format/format-number.ts';
import settings from '#web/screens/settings/settings.module.css';
import { sayMonthSpan, sayMonthState } from './say-storage.ts';
import styles from './storage.module.css';

const shownAtFirst = 12;

/** Months, the newest first. */
export function MonthsTable({ months, showsAll }: { months: readonly StoredMonth[]; showsAll: boolean }) {
  const shown = months.toReversed().slice(0, showsAll ? months.length : shownAtFirst);
  return (
    <section className={settings.stack} aria-labelledby="storage-months">
      <h2 id="storage-months">Months</h2>
      <table className={`${settings.table} ${styles.figures}`}>
        <caption className="only-spoken">Months of readings, the newest first</caption>
        <thead>
          <tr>
            <th scope="col">Month</th>
            <th scope="col">State</th>
            <th scope="col">Taken</th>
            <th scope="col" data-kind="figure">
              Readings
            </th>
            <th scope="col" data-kind="figure">
              Size
            </th>
            <th scope="col" data-kind="figure">
              Index
            </th>
            <th scope="col" className={settings.last}>
              Dropped on
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map((one) => (
            <tr key={one.month} data-off={one.state === 'ahead'}>
              <td>{formatMonthAndYear(one.month)}</td>
              <td data-name="State">{sayMonthState(one)}</td>
              <td data-name="Taken">{sayMonthSpan(one)}</td>
              <td data-name="Readings" data-kind="figure">
                {one.estimated && 'about '}
                {formatWhole(one.rows)}
              </td>
              <td data-name="Size" data-kind="figure">
                {formatBytes(one.heap_bytes)}
              </td>
              <td data-name="Index" data-kind="figure">
                {formatBytes(one.index_bytes)}
              </td>
              <td data-name="Dropped on" className={settings.last}>
                {one.drops_on === null ? 'kept' : formatDayAndYear(one.drops_on)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {months.length > shownAtFirst && (
        <p>
          <Link
            to="/settings/storage"
            search={showsAll ? {} : { months: 'all' }}
            resetScroll={false}
            className={styles.more}
          >
            {showsAll ? 'The newest alone' : `All ${formatWhole(months.length)} months`}
          </Link>
        </p>
      )}
    </section>
  );
}
