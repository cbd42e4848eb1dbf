import { listReadingMonths } from '#db/queries/upkeep/list-reading-months.ts';
import { listSettledMonths } from '#db/queries/upkeep/list-settled-months.ts';
import {
  countTouchedVehicles,
  listTableSizes,
  readDatabaseBytes,
} from '#db/queries/upkeep/list-table-sizes.ts';
import { listUpkeepRuns, type UpkeepRun as StoredRun } from '#db/queries/upkeep/upkeep-runs.ts';
import type { StorageReport, UpkeepRun } from '#server/contract/storage.ts';
import type { Context } from '#server/services/context.ts';
import { forecastFull } from './forecast-full.ts';
import { measureGrowth } from './measure-growth.ts';
import { nextUpkeepAt } from './next-upkeep-at.ts';
import { readFreeBytes } from './read-free-bytes.ts';
import { tableWords } from './table-words.ts';
import { toStoredMonths } from './to-stored-months.ts';
import type { UpkeepLimits } from './upkeep-limits.ts';

const RUNS = 14;
const TABLES = 12;

/** How much is stored, what becomes of it, and how the upkeep goes. Reads the catalogue and no reading. */
export async function getStorage({ db, now }: Context, limits: UpkeepLimits): Promise<StorageReport> {
  const at = now();
  const { keepReadingsMonths: keepMonths } = limits;
  const [databaseBytes, found, settled, sizes, waiting, runs, freeBytes] = await Promise.all([
    readDatabaseBytes(db),
    listReadingMonths(db),
    listSettledMonths(db),
    listTableSizes(db),
    countTouchedVehicles(db),
    listUpkeepRuns(db, RUNS),
    limits.ownServer ? readFreeBytes(db) : null,
  ]);
  const months = toStoredMonths(found, settled, at, keepMonths);
  const rows = months.reduce((sum, one) => sum + one.rows, 0);
  const bytesOf = (one: { heap_bytes: number; index_bytes: number }) => one.heap_bytes + one.index_bytes;
  const bytes = months.reduce((sum, one) => sum + (one.rows > 0 ? bytesOf(one) : 0), 0);
  const allBytes = sizes.reduce((sum, { heapBytes, indexBytes }) => sum + heapBytes + indexBytes, 0);
  const growth = measureGrowth(months, at, rows === 0 ? 0 : allBytes / rows);
  const drops = months.flatMap((one) =>
    one.drops_on === null ? [] : [{ on: one.drops_on, bytes: bytesOf(one) }],
  );
  const next = months.find((one) => one.rows > 0);
  const [last] = runs;
  return {
    as_of: at.toISOString(),
    database_bytes: databaseBytes,
    readings: { rows, bytes, bytes_per_reading: rows === 0 ? null : bytes / rows },
    growth,
    disk:
      freeBytes === null
        ? null
        : {
            free_bytes: freeBytes,
            full_on:
              growth === null
                ? null
                : forecastFull({
                    now: at,
                    freeBytes,
                    bytesPerDay: growth.bytes_per_day,
                    keepMonths,
                    drops,
                  }),
          },
    retention: {
      readings_months: keepMonths,
      receipts_months: limits.keepReceiptsMonths,
      next:
        next === undefined || next.drops_on === null
          ? null
          : { month: next.month, rows: next.rows, bytes: bytesOf(next), on: next.drops_on },
    },
    months,
    tables: sizes.slice(0, TABLES).map(({ name, estimatedRows, heapBytes, indexBytes }) => ({
      name,
      holds: tableWords[name]?.holds ?? '',
      ends: tableWords[name]?.ends ?? '',
      rows: name === 'readings' ? rows : estimatedRows,
      heap_bytes: heapBytes,
      index_bytes: indexBytes,
    })),
    waiting_vehicles: waiting,
    upkeep: {
      next_at: last === undefined || last.state === 'running' ? null : nextUpkeepAt(last).toISOString(),
      runs: runs.map(toRun),
    },
  };
}

const toRun = ({ id, startedAt, endedAt, state, steps }: StoredRun): UpkeepRun => ({
  id,
  started_at: startedAt.toISOString(),
  ended_at: endedAt?.toISOString() ?? null,
  state,
  steps: steps.map(({ step, done, ms, fault }) => ({ step, done, seconds: ms / 1000, fault })),
});
