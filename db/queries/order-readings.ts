import type { ReadingColumns } from './reading-columns.ts';

/** Rows of one vehicle within the order. */
export interface VehicleRun {
  vehicle: number;
  from: number;
  to: number;
}

export interface OrderedReadings {
  /** rows by vehicle and time, each vehicle and time once: the first that came */
  order: Int32Array;
  runs: VehicleRun[];
  /** rows whose vehicle and time came before among these, with the place in `order` of the first */
  repeated: { row: number; first: number }[];
}

/**
 * Puts rows in the order of vehicle and time in which every delivery stores: so two of them that bring the same wait for
 * each other in the same order and never in a circle. Rows mostly come in the order of time, and only those of a vehicle
 * that do not are sorted.
 */
export function orderReadings(columns: ReadingColumns, keyOfPlace: Int32Array): OrderedReadings {
  const { length, unit, atMs, line } = columns;
  const places = Int32Array.from(keyOfPlace.keys());
  places.sort((a, b) => (keyOfPlace[a] ?? 0) - (keyOfPlace[b] ?? 0));
  const next = new Int32Array(places.length);
  for (let row = 0; row < length; row++) {
    const place = unit[row] ?? 0;
    next[place] = (next[place] ?? 0) + 1;
  }
  let sum = 0;
  for (const place of places) {
    const n = next[place] ?? 0;
    next[place] = sum;
    sum += n;
  }
  const rows = new Int32Array(length);
  for (let row = 0; row < length; row++) {
    const place = unit[row] ?? 0;
    const to = next[place] ?? 0;
    rows[to] = row;
    next[place] = to + 1;
  }
  const runs: VehicleRun[] = [];
  const repeated: OrderedReadings['repeated'] = [];
  let from = 0;
  let kept = 0;
  for (const place of places) {
    const own = rows.subarray(from, next[place]);
    from = next[place] ?? 0;
    if (own.length === 0) continue;
    if (!rises(own, atMs))
      own.sort((a, b) => (atMs[a] ?? 0) - (atMs[b] ?? 0) || (line[a] ?? 0) - (line[b] ?? 0));
    const first = kept;
    for (const row of own) {
      const before = rows[kept - 1] ?? 0;
      if (kept > first && atMs[before] === atMs[row]) repeated.push({ row, first: kept - 1 });
      else rows[kept++] = row;
    }
    runs.push({ vehicle: keyOfPlace[place] ?? 0, from: first, to: kept });
  }
  return { order: rows.subarray(0, kept), runs, repeated };
}

function rises(rows: Int32Array, atMs: Float64Array): boolean {
  for (let i = 1; i < rows.length; i++)
    if ((atMs[rows[i] ?? 0] ?? 0) <= (atMs[rows[i - 1] ?? 0] ?? 0)) return false;
  return true;
}
