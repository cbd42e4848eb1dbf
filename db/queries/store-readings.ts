import { type Database, rawClient } from '#db/client.ts';
import { createBinaryCopy } from './binary-copy.ts';
import { copyRows } from './copy-rows.ts';

export interface ReadingRow {
  at: Date;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  torquePct: number | null;
  throttlePct: number | null;
  speedKmh: number | null;
  seconds: number | null;
  gear: number | null;
  shifting: boolean | null;
  codes: string[] | null;
}

/** What was new of one vehicle in one batch. */
export interface StoredSpan {
  vehicle: number;
  n: number;
  fromAt: Date;
  toAt: Date;
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
  'vehicle, at, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, throttle_pct, speed_kmh, seconds, gear, shifting, codes';
const CONTENT = COLUMNS.split(', ').slice(2);
const contentOf = (table: string) => CONTENT.map((column) => `${table}.${column}`).join(', ');

/** A reading that arrives later than this after its moment has the moment of its arrival stored with it, ms. */
const LATE_MS = 86_400_000;

/**
 * Stores readings that arrive now, each vehicle and time once, the first of them. Within a transaction. Rows go in by vehicle and time
 * whatever order they came in, so that two deliveries with the same readings wait for each other in the same order and
 * never in a circle. What is new counts for its sender, in the weeks in which it was taken, by vehicle and week.
 */
export async function storeReadings(
  transaction: Database,
  readings: readonly { vehicle: number; reading: ReadingRow }[],
  now: Date,
  sender: string,
): Promise<StoredReadings> {
  const late = new Date(now.getTime() - LATE_MS).toISOString();
  const client = rawClient(transaction);
  await client.unsafe(
    'create temp table if not exists incoming_readings (line integer, like readings) on commit delete rows',
  );
  await copyRows(
    client,
    `incoming_readings (line, ${COLUMNS}) from stdin (format binary)`,
    toBinary(readings),
  );
  const spans = await client.unsafe<(StoredSpan & Record<string, unknown>)[]>(
    `
    with stored as (
      insert into readings (${COLUMNS}, arrived_at)
      select ${COLUMNS}, case when at < '${late}'::timestamptz then '${now.toISOString()}'::timestamptz end
      from incoming_readings order by vehicle, at, line
      on conflict do nothing
      returning vehicle, at, odometer_km),
    counted as (
      insert into sender_weeks as known (vehicle, week, sender, stored)
      select vehicle, date_trunc('week', at)::date, $1, count(*) from stored
      group by 1, 2 order by 1, 2
      on conflict (vehicle, week, sender) do update set stored = known.stored + excluded.stored)
    select vehicle, count(*)::int as n, min(at) as "fromAt", max(at) as "toAt",
      (array_agg(odometer_km order by at desc))[1] as "odometerKm"
    from stored group by vehicle order by vehicle`,
    [sender],
  );
  const stored = spans.reduce((sum, span) => sum + span.n, 0);
  const duplicate = readings.length - stored;
  return { stored, duplicate, conflicting: duplicate === 0 ? 0 : await countConflicting(transaction), spans };
}

/** The limit keeps the planner, which knows nothing of a table just filled, from reading whole partitions. */
async function countConflicting(transaction: Database): Promise<number> {
  const [row] = await rawClient(transaction).unsafe(`
    select count(*)::int as n
    from incoming_readings i cross join lateral (
      select * from readings r where r.vehicle = i.vehicle and r.at = i.at limit 1) r
    where row(${contentOf('i')}) is distinct from row(${contentOf('r')})`);
  return Number(row?.n ?? 0);
}

const ROW_BYTES = 128;

function toBinary(readings: readonly { vehicle: number; reading: ReadingRow }[]): Buffer {
  const copy = createBinaryCopy((readings.length + 1) * ROW_BYTES);
  for (const [line, { vehicle, reading }] of readings.entries()) {
    copy.row(15);
    copy.integer(line);
    copy.integer(vehicle);
    copy.instant(reading.at);
    copy.real(reading.odometerKm);
    copy.real(reading.slipRpm);
    copy.real(reading.dutyPct);
    copy.real(reading.fluidC);
    copy.real(reading.loadPct);
    copy.real(reading.torquePct);
    copy.real(reading.throttlePct);
    copy.real(reading.speedKmh);
    copy.real(reading.seconds);
    copy.smallint(reading.gear);
    copy.boolean(reading.shifting);
    copy.texts(reading.codes);
  }
  return copy.finish();
}
