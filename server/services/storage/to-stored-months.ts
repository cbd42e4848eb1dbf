import type { ReadingMonth } from '#db/queries/upkeep/list-reading-months.ts';
import type { SettledMonth } from '#db/queries/upkeep/list-settled-months.ts';
import type { StoredMonth } from '#server/contract/storage.ts';
import { dropDayOf, tellMonth } from './months.ts';
import { isDue } from './settle-months.ts';

/** A month with readings and none of a year before and after it was probably told by a wrong clock. */
const ALONE_MONTHS = 12;

type Found = Pick<
  ReadingMonth,
  'month' | 'tableId' | 'heapBytes' | 'indexBytes' | 'estimatedRows' | 'sampledFirstAt' | 'sampledLastAt'
>;
type Settled = Pick<SettledMonth, 'month' | 'tableId' | 'heapBytes' | 'rows' | 'firstAt' | 'lastAt'>;

/** Months as they are told: those in order by what was counted then, others by the catalogue's estimate. */
export function toStoredMonths(
  found: readonly Found[],
  settled: readonly Settled[],
  now: Date,
  keepMonths: number,
): StoredMonth[] {
  const recordOf = new Map(settled.map((one) => [one.month, one]));
  const withRows = found.filter(({ estimatedRows }) => estimatedRows > 0).map(({ month }) => orderOf(month));
  return found.map((one) => {
    const { month, heapBytes, indexBytes, estimatedRows } = one;
    const record = recordOf.get(month);
    const inOrder = record !== undefined && !isDue(one, record) ? record : null;
    const order = orderOf(month);
    const others = withRows.filter((other) => other !== order);
    return {
      month,
      state: inOrder === null ? tellMonth(month, now) : 'settled',
      rows: inOrder?.rows ?? estimatedRows,
      estimated: inOrder === null && estimatedRows > 0,
      heap_bytes: heapBytes,
      index_bytes: indexBytes,
      first_at: iso(inOrder === null ? one.sampledFirstAt : inOrder.firstAt),
      last_at: iso(inOrder === null ? one.sampledLastAt : inOrder.lastAt),
      drops_on: dropDayOf(month, keepMonths),
      alone:
        estimatedRows > 0 &&
        others.length > 0 &&
        others.every((other) => Math.abs(other - order) > ALONE_MONTHS),
    };
  });
}

const orderOf = (month: string): number => 12 * Number(month.slice(0, 4)) + Number(month.slice(5));
const iso = (at: Date | null): string | null => at?.toISOString() ?? null;
