import { type Database, rawClient } from '#db/client.ts';
import { copyRows } from './copy-rows.ts';
import { contentOf, copyOf, encodeReadings } from './encode-readings.ts';
import { findStoredReadings } from './find-stored-readings.ts';
import { type OrderedReadings, orderReadings } from './order-readings.ts';
import { REALS, type ReadingColumns } from './reading-columns.ts';
import { toShortestReal } from './to-shortest-real.ts';

/** What was new of one vehicle in one batch. */
export interface StoredSpan {
  vehicle: number;
  n: number;
  fromMs: number;
  toMs: number;
  /** of the newest reading stored, km */
  odometerKm: number;
}

export interface StoredReadings {
  stored: number;
  duplicate: number;
  /** duplicates with a different content */
  conflicting: number;
  spans: StoredSpan[];
}

const COLUMNS =
  'vehicle, at, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, throttle_pct, speed_kmh, seconds, gear, shifting, codes, arrived_at';

/** A reading that arrives later than this after its moment has the moment of its arrival stored with it, ms. */
const LATE_MS = 86_400_000;
const WEEK_MS = 7 * 86_400_000;
/** For rows that are encoded to be compared, not to be stored. */
const NEVER_LATE = { nowMs: 0, lateMs: Number.NEGATIVE_INFINITY };
/** The first Monday of 1970. */
const MONDAY_MS = 4 * 86_400_000;

/**
 * Stores readings that arrive now, each vehicle and time once, the first of them. Within a transaction. What is stored
 * already is looked up first, and the rest goes straight into the table: nothing is staged. Where another delivery stores
 * the same meanwhile, the key of the table refuses ours and the whole transaction has to be done again (`isStoredMeanwhile`).
 * What is new counts for its sender, in the weeks in which it was taken.
 */
export async function storeReadings(
  transaction: Database,
  columns: ReadingColumns,
  keyOfPlace: Int32Array,
  now: Date,
  sender: string,
): Promise<StoredReadings> {
  const client = rawClient(transaction);
  const nowMs = now.getTime();
  const ordered = orderReadings(columns, keyOfPlace);
  const late = { nowMs, lateMs: nowMs - LATE_MS };
  const encoded = encodeReadings(columns, ordered.order, keyOfPlace, late, (bytes) => columns.roomFor(bytes));
  const { isNew, conflicting, storedFirsts } = await findStoredReadings(client, columns, ordered, encoded);
  const { spans, weeks } = sumUp(columns, ordered, isNew);
  const stored = spans.reduce((sum, { n }) => sum + n, 0);
  if (stored > 0) {
    const rows = copyOf(encoded, stored === ordered.order.length ? null : isNew);
    await copyRows(client, `readings (${COLUMNS}) from stdin (format binary)`, rows);
    await client`
      insert into sender_weeks as known (vehicle, week, sender, stored)
      select vehicle, date '1970-01-01' + day, ${sender}, n from unnest(${weeks.vehicle}::integer[],
        ${weeks.day}::integer[], ${weeks.n}::integer[]) as w(vehicle, day, n)
      order by vehicle, day
      on conflict (vehicle, week, sender) do update set stored = known.stored + excluded.stored`;
  }
  return {
    stored,
    duplicate: columns.length - stored,
    conflicting: conflicting + countOtherwise(columns, ordered, keyOfPlace, storedFirsts),
    spans,
  };
}

/** Of the constraint that a reading breaks which another delivery has stored since it was looked up. */
export const isStoredMeanwhile = (error: unknown): boolean =>
  error instanceof Error &&
  'code' in error &&
  error.code === '23505' &&
  'table_name' in error &&
  String(error.table_name).startsWith('readings');

interface Weeks {
  vehicle: number[];
  /** Mondays, days since 1970 */
  day: number[];
  n: number[];
}

function sumUp({ atMs, reals }: ReadingColumns, { order, runs }: OrderedReadings, isNew: Uint8Array) {
  const spans: StoredSpan[] = [];
  const weeks: Weeks = { vehicle: [], day: [], n: [] };
  for (const { vehicle, from, to } of runs) {
    let span: StoredSpan | null = null;
    let newest = 0;
    let weekEndMs = Number.NEGATIVE_INFINITY;
    for (let i = from; i < to; i++) {
      if (isNew[i] !== 1) continue;
      const row = order[i] ?? 0;
      const ms = atMs[row] ?? 0;
      if (ms >= weekEndMs) {
        const mondayMs = Math.floor((ms - MONDAY_MS) / WEEK_MS) * WEEK_MS + MONDAY_MS;
        weekEndMs = mondayMs + WEEK_MS;
        weeks.vehicle.push(vehicle);
        weeks.day.push(mondayMs / 86_400_000);
        weeks.n.push(0);
      }
      weeks.n[weeks.n.length - 1] = (weeks.n.at(-1) ?? 0) + 1;
      span ??= { vehicle, n: 0, fromMs: ms, toMs: ms, odometerKm: 0 };
      span.n++;
      span.toMs = ms;
      newest = row;
    }
    if (span === null) continue;
    span.odometerKm = toShortestReal(reals[newest * REALS] ?? Number.NaN);
    spans.push(span);
  }
  return { spans, weeks };
}

/** Rows whose vehicle and time came before in the batch, with another content than the one that is stored. */
function countOtherwise(
  columns: ReadingColumns,
  { order, repeated }: OrderedReadings,
  keyOfPlace: Int32Array,
  storedFirsts: ReadonlyMap<number, Buffer>,
): number {
  if (repeated.length === 0) return 0;
  const contents = (rows: readonly number[]) => {
    const encoded = encodeReadings(columns, Int32Array.from(rows), keyOfPlace, NEVER_LATE);
    return rows.map((_, i) => contentOf(encoded, i));
  };
  const firsts = contents(repeated.map(({ first }) => order[first] ?? 0));
  const again = contents(repeated.map(({ row }) => row));
  return repeated.filter(({ first }, i) => {
    const stored = storedFirsts.get(first) ?? firsts[i];
    return stored === undefined || again[i]?.equals(stored) !== true;
  }).length;
}
