import type { RawClient } from '#db/client.ts';
import { COPY_HEADER, EPOCH_2000_MS, TWO_32 } from './copy-format.ts';
import type { EncodedReadings } from './encode-readings.ts';
import type { OrderedReadings, VehicleRun } from './order-readings.ts';
import { readCopyBytes } from './read-binary-copy.ts';
import type { ReadingColumns } from './reading-columns.ts';

/** As they are encoded, but for when they arrived. */
const CONTENT =
  'r.vehicle, r.at, r.odometer_km, r.slip_rpm, r.duty_pct, r.fluid_c, r.load_pct, r.torque_pct, r.throttle_pct, r.speed_kmh, r.seconds, r.gear, r.shifting, r.codes';
/** Where more are stored in the spans than this and twice those that came, the ones that came are looked up one by one. */
const FEW = 10_000;

export interface StoredMatch {
  /** of each row in order: 1 where nothing is stored of its vehicle and time */
  isNew: Uint8Array;
  /** rows that are stored with another content */
  conflicting: number;
  /** what is stored in the place of rows that come more than once in the batch, by their place in the order */
  storedFirsts: Map<number, Buffer>;
}

/**
 * Which of these readings are stored already. Most deliveries bring nothing that is: then this is a look at the index for
 * each vehicle. Where a vehicle has readings in the span, they are read and compared byte by byte. Within `planByIndex`.
 */
export async function findStoredReadings(
  client: RawClient,
  columns: ReadingColumns,
  { order, runs, repeated }: OrderedReadings,
  encoded: EncodedReadings,
): Promise<StoredMatch> {
  const isNew = new Uint8Array(order.length).fill(1);
  let conflicting = 0;
  const storedFirsts = new Map<number, Buffer>();
  const firsts = new Set(repeated.map(({ first }) => first));
  const runOf = new Map(runs.map((run) => [run.vehicle, run]));
  const timeOf = (i: number) => columns.atMs[order[i] ?? 0] ?? 0;

  const match = (stored: Buffer): number => {
    let rows = 0;
    for (const { vehicle, atMs, from, to } of readRows(stored)) {
      rows++;
      const run = runOf.get(vehicle);
      if (run === undefined) continue;
      const i = findTime(run, atMs, timeOf);
      if (i === null || isNew[i] === 0) continue;
      isNew[i] = 0;
      // Behind the count of columns, which differs.
      const start = (encoded.starts[i] ?? 0) + 2;
      const length = to - from - 2;
      if (encoded.bytes.compare(stored, from + 2, to, start, start + length) !== 0) conflicting++;
      if (firsts.has(i)) storedFirsts.set(i, stored.subarray(from + 2, to));
    }
    return rows;
  };

  const most = 2 * order.length + FEW;
  if (match(await readCopyBytes(client, inSpans(runs, timeOf, most))) === most)
    match(await readCopyBytes(client, oneByOne(runs, timeOf)));
  return { isNew, conflicting, storedFirsts };
}

function inSpans(runs: readonly VehicleRun[], timeOf: (i: number) => number, most: number): string {
  return `
    select ${CONTENT} from unnest('{${runs.map(({ vehicle }) => vehicle)}}'::integer[],
      '{${runs.map(({ from }) => timeOf(from))}}'::float8[],
      '{${runs.map(({ to }) => timeOf(to - 1))}}'::float8[]) as s(vehicle, from_ms, to_ms)
    join reading_spans k on k.vehicle = s.vehicle
      and k.last_at >= to_timestamp(s.from_ms / 1000) and k.first_at <= to_timestamp(s.to_ms / 1000)
    join readings r on r.vehicle = k.vehicle and r.vehicle = s.vehicle
      and r.at between to_timestamp(s.from_ms / 1000) and to_timestamp(s.to_ms / 1000)
    limit ${most}`;
}

function oneByOne(runs: readonly VehicleRun[], timeOf: (i: number) => number): string {
  const keys: number[] = [];
  const times: number[] = [];
  for (const { vehicle, from, to } of runs)
    for (let i = from; i < to; i++) {
      keys.push(vehicle);
      times.push(timeOf(i));
    }
  return `
    select ${CONTENT} from unnest('{${keys}}'::integer[], '{${times}}'::float8[]) as s(vehicle, ms)
    join readings r on r.vehicle = s.vehicle and r.at = to_timestamp(s.ms / 1000)`;
}

function findTime({ from, to }: VehicleRun, atMs: number, timeOf: (i: number) => number): number | null {
  let low = from;
  let high = to;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (timeOf(middle) < atMs) low = middle + 1;
    else high = middle;
  }
  return low < to && timeOf(low) === atMs ? low : null;
}

/** Rows in COPY's binary format: vehicle, moment, and where they begin and end. */
function* readRows(bytes: Buffer): Generator<{ vehicle: number; atMs: number; from: number; to: number }> {
  let at = COPY_HEADER.length;
  for (;;) {
    const columns = bytes.readInt16BE(at);
    if (columns < 0) return;
    const from = at;
    at += 2;
    for (let k = 0; k < columns; k++) at += 4 + Math.max(0, bytes.readInt32BE(at));
    const vehicle = bytes.readInt32BE(from + 6);
    const micros = bytes.readInt32BE(from + 14) * TWO_32 + bytes.readUInt32BE(from + 18);
    yield { vehicle, atMs: micros / 1000 + EPOCH_2000_MS, from, to: at };
  }
}
