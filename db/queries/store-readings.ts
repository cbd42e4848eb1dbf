import { type Database, rawClient } from '#db/client.ts';
import { copyRows } from './copy-rows.ts';
import { toCopyArray } from './to-copy-text.ts';

export interface ReadingRow {
  at: Date;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number;
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

/**
 * Stores readings, each vehicle and time once, the first of them. Within a transaction. Rows go in by vehicle and time
 * whatever order they came in, so that two deliveries with the same readings wait for each other in the same order and
 * never in a circle.
 */
export async function storeReadings(
  transaction: Database,
  readings: readonly { vehicle: number; reading: ReadingRow }[],
): Promise<StoredReadings> {
  const client = rawClient(transaction);
  await client.unsafe(
    'create temp table if not exists incoming_readings (line integer, like readings) on commit delete rows',
  );
  const rows = readings.map(({ vehicle, reading }, index) => toCopyRow(index, vehicle, reading));
  await copyRows(client, `incoming_readings (line, ${COLUMNS})`, rows.join(''));
  const spans = await client.unsafe<(StoredSpan & Record<string, unknown>)[]>(`
    with stored as (
      insert into readings (${COLUMNS})
      select ${COLUMNS} from incoming_readings order by vehicle, at, line
      on conflict do nothing
      returning vehicle, at, odometer_km)
    select vehicle, count(*)::int as n, min(at) as "fromAt", max(at) as "toAt",
      (array_agg(odometer_km order by at desc))[1] as "odometerKm"
    from stored group by vehicle order by vehicle`);
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

const NULL = '\\N';

function toCopyRow(line: number, vehicle: number, r: ReadingRow): string {
  return `${line}\t${vehicle}\t${r.at.toISOString()}\t${r.odometerKm}\t${r.slipRpm}\t${r.dutyPct}\t${r.fluidC}\t${r.loadPct ?? NULL}\t${r.torquePct ?? NULL}\t${r.throttlePct ?? NULL}\t${r.speedKmh ?? NULL}\t${r.seconds ?? NULL}\t${r.gear ?? NULL}\t${r.shifting ?? NULL}\t${r.codes === null ? NULL : toCopyArray(r.codes)}\n`;
}
