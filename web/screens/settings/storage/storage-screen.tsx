import { getRouteApi } from '@tanstack/react-router';
import { useEffect } from 'react';
import type { StorageReport } from '#server/contract/storage.ts';
import { useStorage } from '#web/api/use-storage.ts';
import { formatBytes } from '#web/format/format-bytes.ts';
import { formatMonthAndYear } from '#web/format/format-day.ts';
import { formatWhole } from '#web/format/format-number.ts';
import settings from '#web/screens/settings/settings.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { MonthsFigure } from './months-figure.tsx';
import { MonthsTable } from './months-table.tsx';
import { RunsTable } from './runs-table.tsx';
import { sayDisk, sayGrowth, sayReadings, sayReceipts, sayRetention } from './say-storage.ts';
import styles from './storage.module.css';
import { parseStorageSearch } from './storage-search.ts';
import { TablesTable } from './tables-table.tsx';

const route = getRouteApi('/settings/storage');

/** How much is stored, what is taken away and when, and how the upkeep goes. */
export function StorageScreen() {
  const { months } = parseStorageSearch({ ...route.useSearch() });
  const { data, isPending, isError, error, refetch } = useStorage();
  useEffect(() => {
    document.title = 'Storage · Slipdrift';
  }, []);
  return (
    <div className={settings.screen}>
      <header className={settings.head}>
        <div className={settings.words}>
          <h1>Storage</h1>
          <p>
            Readings are kept by month. Months are made ahead, put in order when they are over, and dropped
            when they are older than is kept, all by itself.
          </p>
        </div>
      </header>
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the storage</p>}
      {data !== undefined && (
        <>
          <Facts report={data} />
          <MonthsFigure report={data} />
          <MonthsTable months={data.months} showsAll={months === 'all'} />
          <TablesTable tables={data.tables} />
          <RunsTable upkeep={data.upkeep} />
        </>
      )}
    </div>
  );
}

function Facts({ report }: { report: StorageReport }) {
  const alone = report.months.filter((one) => one.alone);
  return (
    <>
      <dl className={styles.facts}>
        <div>
          <dt>Database</dt>
          <dd>
            It takes {formatBytes(report.database_bytes)}. {sayReadings(report)}
          </dd>
        </div>
        <div>
          <dt>Growth</dt>
          <dd>{sayGrowth(report)}</dd>
        </div>
        <div>
          <dt>Disk</dt>
          <dd>{sayDisk(report)}</dd>
        </div>
        <div>
          <dt>Retention</dt>
          <dd>
            {sayRetention(report)} {sayReceipts(report)}
          </dd>
        </div>
        <div>
          <dt>Waiting</dt>
          <dd>
            {report.waiting_vehicles === 0
              ? 'No vehicle waits for an assessment.'
              : `${formatWhole(report.waiting_vehicles)} ${report.waiting_vehicles === 1 ? 'vehicle waits' : 'vehicles wait'} for an assessment.`}
          </dd>
        </div>
      </dl>
      {alone.length > 0 && (
        <p className={settings.warning}>
          Far from all others: {alone.map(({ month }) => formatMonthAndYear(month)).join(', ')}. Look whether
          the clock of a gateway was wrong.
        </p>
      )}
    </>
  );
}
