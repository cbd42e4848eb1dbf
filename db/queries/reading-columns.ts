import { UnitPlaces } from './unit-places.ts';

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

/** Reals of a reading, in the order in which they are stored. */
export const REALS = 9;
/** What stands for null where a column is of whole numbers. */
export const NO_GEAR = -32_768;
export const NOT_SAID = -1;

const FEW_ROWS = 64;

/**
 * Readings that wait to be stored, an array a column. As objects, thousands of them would be moved about by the
 * collector for as long as they wait: that took half of the time of a delivery.
 */
export class ReadingColumns {
  length = 0;
  readonly places = new UnitPlaces();
  /** of each row: its line of the body, by which the first of two is told; place of its unit; ms since 1970; reals, NaN for null; gear; 1, 0 or NOT_SAID */
  line: Float64Array<ArrayBuffer>;
  unit: Int32Array<ArrayBuffer>;
  atMs: Float64Array<ArrayBuffer>;
  reals: Float32Array<ArrayBuffer>;
  gear: Int16Array<ArrayBuffer>;
  shifting: Int8Array<ArrayBuffer>;
  /** trouble codes of the rows that have any */
  readonly codes = new Map<number, readonly string[]>();
  #room = Buffer.alloc(0);

  /** With room for so many rows, and for more as they come. */
  constructor(rows = FEW_ROWS) {
    this.line = new Float64Array(rows);
    this.unit = new Int32Array(rows);
    this.atMs = new Float64Array(rows);
    this.reals = new Float32Array(rows * REALS);
    this.gear = new Int16Array(rows);
    this.shifting = new Int8Array(rows);
  }

  /** Forgets all rows and keeps the room: memory outside of the heap, asked for anew each time, sets the collector going. */
  clear(): void {
    this.length = 0;
    this.places.clear();
    this.codes.clear();
  }

  /** unit numbers, each once, by place */
  get units(): readonly string[] {
    return this.places.units;
  }

  /** Memory in which these rows may be encoded, which stays theirs; the same each time. */
  roomFor(bytes: number): Buffer {
    if (this.#room.length < bytes) this.#room = Buffer.allocUnsafeSlow(bytes);
    return this.#room.subarray(0, bytes);
  }

  push(unit: string, reading: ReadingRow, line: number): void {
    const row = this.#begin(this.places.of(unit), reading.at.getTime(), line);
    const { reals } = this;
    let to = row * REALS;
    // Minus nothing is nothing: it must not count as another content.
    for (const value of [
      reading.odometerKm,
      reading.slipRpm,
      reading.dutyPct,
      reading.fluidC,
      reading.loadPct,
      reading.torquePct,
      reading.throttlePct,
      reading.speedKmh,
      reading.seconds,
    ])
      reals[to++] = value === null ? Number.NaN : value + 0;
    this.gear[row] = reading.gear ?? NO_GEAR;
    this.shifting[row] = reading.shifting === null ? NOT_SAID : Number(reading.shifting);
    if (reading.codes !== null) this.codes.set(row, reading.codes);
  }

  /** A row without codes; `place` is that of its unit, `values` are its reals, NaN for null. */
  pushValues(
    place: number,
    atMs: number,
    values: Float64Array,
    gear: number,
    shifting: number,
    line: number,
  ): void {
    const row = this.#begin(place, atMs, line);
    const { reals } = this;
    for (let i = 0; i < REALS; i++) reals[row * REALS + i] = (values[i] ?? Number.NaN) + 0;
    this.gear[row] = gear;
    this.shifting[row] = shifting;
  }

  #begin(place: number, atMs: number, line: number): number {
    const row = this.length++;
    if (row === this.unit.length) this.#grow();
    this.unit[row] = place;
    this.atMs[row] = atMs;
    this.line[row] = line;
    return row;
  }

  #grow(): void {
    const rows = this.unit.length * 2;
    this.line = enlarged(this.line, new Float64Array(rows));
    this.unit = enlarged(this.unit, new Int32Array(rows));
    this.atMs = enlarged(this.atMs, new Float64Array(rows));
    this.reals = enlarged(this.reals, new Float32Array(rows * REALS));
    this.gear = enlarged(this.gear, new Int16Array(rows));
    this.shifting = enlarged(this.shifting, new Int8Array(rows));
  }
}

function enlarged<T extends { set(values: ArrayLike<number>): void }>(
  old: T & ArrayLike<number>,
  room: T,
): T {
  room.set(old);
  return room;
}

/** Rows that are objects already, as columns. */
export function toReadingColumns(rows: Iterable<ReadingRow & { vehicle: string }>): ReadingColumns {
  const columns = new ReadingColumns();
  let line = 0;
  for (const row of rows) columns.push(row.vehicle, row, ++line);
  return columns;
}
