import { openDatabase, type RawClient } from '#db/client.ts';
import { copyRows } from '#db/queries/copy-rows.ts';
import { encodeReadings } from '#db/queries/encode-readings.ts';
import { ReadingColumns } from '#db/queries/reading-columns.ts';
import { timed } from '#tests/bench/timing.ts';
import { listByVehicle, type MadeRow, type MadeRows } from './made-rows.ts';

const TABLE = 'bench_readings';
const COLUMNS =
  'vehicle, at, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, throttle_pct, speed_kmh, seconds, gear, shifting, codes, arrived_at';

export type CopyFormat = 'binary' | 'text';
/** What each connection copies, as bytes or text of COPY. */
export type ReadyRows = (string | Buffer)[];

/** A table of the same shape as readings, empty: same columns, same keys and indexes, the same months. */
export async function makeReferenceTable(client: RawClient): Promise<void> {
  await client.unsafe(`drop table if exists ${TABLE}`);
  await client.unsafe(`create table ${TABLE} (like readings including all) partition by range (at)`);
  const months = await client<{ name: string; bounds: string }[]>`
    select child.relname as name, pg_get_expr(child.relpartbound, child.oid) as bounds
    from pg_inherits join pg_class child on child.oid = inhrelid
    where inhparent = 'readings'::regclass`;
  for (const { name, bounds } of months)
    await client.unsafe(`create table bench_${name} partition of ${TABLE} ${bounds}`);
}

/** The rows as we would store them, by vehicle and time, for so many connections, each with vehicles of its own. */
export function readyRows(made: MadeRows, round: number, connections: number, format: CopyFormat): ReadyRows {
  const share = Math.ceil(made.vehicles / connections);
  const now = new Date();
  return Array.from({ length: connections }, (_, i) => {
    const rows = listByVehicle(made, i * share, Math.min(made.vehicles, (i + 1) * share));
    const keyed = { rows, firstKey: 1 + round * made.vehicles, now };
    return format === 'binary' ? toBinary(keyed, made.rows / connections) : toText(keyed);
  });
}

/** Rows a second of COPY into that table, each part over a connection of its own in one transaction. */
export async function copyReadyRows(databaseUrl: string, ready: ReadyRows, rows: number): Promise<number> {
  const { client, close } = openDatabase(databaseUrl, { connections: ready.length });
  const format = ready.every((part) => typeof part === 'string') ? 'text' : 'binary';
  try {
    await Promise.all(ready.map(() => client`select pg_sleep(0.02)`));
    const seconds = await timed(() =>
      Promise.all(
        ready.map((part) => copyRows(client, `${TABLE} (${COLUMNS}) from stdin (format ${format})`, part)),
      ),
    );
    return rows / seconds;
  } finally {
    await close();
  }
}

interface Keyed {
  rows: Iterable<{ vehicle: number; row: MadeRow }>;
  firstKey: number;
  now: Date;
}

function toBinary({ rows, firstKey, now }: Keyed, expected: number): Buffer {
  const columns = new ReadingColumns(Math.ceil(expected));
  const unknown = { throttlePct: null, shifting: null, codes: null };
  for (const { vehicle, row } of rows)
    columns.push(
      String(vehicle),
      {
        ...unknown,
        at: new Date(row.at),
        odometerKm: row.odometer_km,
        slipRpm: row.slip_rpm,
        dutyPct: row.duty_pct,
        fluidC: row.fluid_c,
        loadPct: row.load_pct,
        torquePct: row.torque_pct,
        speedKmh: row.speed_kmh,
        seconds: row.seconds,
        gear: row.gear,
      },
      columns.length,
    );
  const inOrder = Int32Array.from({ length: columns.length }, (_, i) => i);
  const keys = Int32Array.from(columns.units, (unit) => firstKey + Number(unit));
  const late = { nowMs: now.getTime(), lateMs: Number.POSITIVE_INFINITY };
  return encodeReadings(columns, inOrder, keys, late).bytes;
}

function toText({ rows, firstKey, now }: Keyed): string {
  const lines: string[] = [];
  const arrived = now.toISOString();
  for (const { vehicle, row } of rows)
    lines.push(
      `${firstKey + vehicle}\t${row.at}\t${row.odometer_km}\t${row.slip_rpm}\t${row.duty_pct}\t${row.fluid_c}\t${row.load_pct}\t${row.torque_pct}\t\\N\t${row.speed_kmh}\t${row.seconds}\t${row.gear}\t\\N\t\\N\t${arrived}\n`,
    );
  return lines.join('');
}
