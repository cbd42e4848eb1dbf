import { COPY_HEADER, EPOCH_2000_MS, TWO_32 } from './copy-format.ts';

export interface StretchRecord {
  vehicle: number;
  life: number;
  band: number;
  /** ms since 1970 */
  firstAtMs: number;
  lastAtMs: number;
  n: number;
  weight: number;
  effective: number;
  odometerKm: number;
  slipRpm: number;
  scaleRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  moments: number[];
}

/** Columns of stretches in the order in which {@link StoredStretches} takes them after the vehicle, an array of each. */
export const STRETCH_COLUMNS = [
  'life',
  'band',
  'first_at',
  'last_at',
  'n',
  'weight',
  'effective',
  'odometer_km',
  'slip_rpm',
  'scale_rpm',
  'duty_pct',
  'fluid_c',
  'load_pct',
  'moments',
] as const;

/** Of an array: number of dimensions, flags and type. */
const HEAD_BYTES = 12;
/** Length and lower bound. */
const DIMENSION_BYTES = 8;
const LENGTH_BYTES = 4;

/**
 * Stretches of some vehicles as they came from storage, in COPY's binary format, a row a vehicle. They are made into objects when
 * they are asked for, each time anew: those of one vehicle are gone again before the next one's are made, where those of all would
 * take a hundred times the memory, and the collector a good part of the time.
 */
export class StoredStretches {
  readonly #view: DataView;
  /** where the columns of a vehicle begin */
  readonly #starts = new Map<number, number>();

  constructor(bytes: Buffer) {
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    let at = COPY_HEADER.length;
    for (;;) {
      const columns = this.#view.getInt16(at);
      if (columns < 0) return;
      at += 2;
      this.#starts.set(this.#view.getInt32(at + LENGTH_BYTES), at + 2 * LENGTH_BYTES);
      for (let column = 0; column < columns; column++) at += LENGTH_BYTES + this.#view.getInt32(at);
    }
  }

  /** Those of one vehicle in order of life, band and kilometres; none where it has none. */
  of(vehicle: number): StretchRecord[] {
    const start = this.#starts.get(vehicle);
    return start === undefined ? [] : readColumns(this.#view, vehicle, start);
  }

  /** Those of each vehicle that has any. */
  all(): StretchRecord[][] {
    return [...this.#starts.keys()].map((vehicle) => this.of(vehicle));
  }
}

function readColumns(view: DataView, vehicle: number, start: number): StretchRecord[] {
  let next = start;
  /** Where the next column's elements begin, each with its length before it. */
  const column = (): number => {
    const at = next + LENGTH_BYTES;
    next = at + view.getInt32(next);
    return at + HEAD_BYTES + DIMENSION_BYTES * view.getInt32(at) + LENGTH_BYTES;
  };
  const count = view.getInt32(start + LENGTH_BYTES + HEAD_BYTES);
  const [life, band, firstAt, lastAt, n] = [column(), column(), column(), column(), column()];
  const [weight, effective, odometerKm] = [column(), column(), column()];
  const [slipRpm, scaleRpm, dutyPct] = [column(), column(), column()];
  const fluidC = readKnown(view, column(), count);
  const loadPct = readKnown(view, column(), count);
  const widthAt = next + LENGTH_BYTES + HEAD_BYTES + DIMENSION_BYTES;
  const moments = column();
  const width = view.getInt32(widthAt);
  const rows: StretchRecord[] = [];
  for (let i = 0; i < count; i++) {
    const two = i * (LENGTH_BYTES + 2);
    const four = i * (LENGTH_BYTES + 4);
    const eight = i * (LENGTH_BYTES + 8);
    rows.push({
      vehicle,
      life: view.getInt16(life + two),
      band: view.getInt16(band + two),
      firstAtMs: instantMs(view, firstAt + eight),
      lastAtMs: instantMs(view, lastAt + eight),
      n: view.getInt32(n + four),
      weight: view.getFloat64(weight + eight),
      effective: view.getFloat64(effective + eight),
      odometerKm: view.getFloat64(odometerKm + eight),
      slipRpm: view.getFloat64(slipRpm + eight),
      scaleRpm: view.getFloat64(scaleRpm + eight),
      dutyPct: view.getFloat64(dutyPct + eight),
      fluidC: fluidC[i] ?? null,
      loadPct: loadPct[i] ?? null,
      moments: readDoubles(view, moments + width * eight, width),
    });
  }
  return rows;
}

/** A moment in ms since 1970, from microseconds since 2000. */
const instantMs = (view: DataView, at: number): number =>
  (view.getInt32(at) * TWO_32 + view.getUint32(at + 4)) / 1000 + EPOCH_2000_MS;

function readDoubles(view: DataView, from: number, count: number): number[] {
  const values: number[] = [];
  for (let i = 0; i < count; i++) values.push(view.getFloat64(from + i * (LENGTH_BYTES + 8)));
  return values;
}

/** Doubles of which some are null, and so without a value behind their length. */
function readKnown(view: DataView, from: number, count: number): (number | null)[] {
  const values: (number | null)[] = [];
  let at = from;
  for (let i = 0; i < count; i++) {
    const isKnown = view.getInt32(at - LENGTH_BYTES) >= 0;
    values.push(isKnown ? view.getFloat64(at) : null);
    at += isKnown ? LENGTH_BYTES + 8 : LENGTH_BYTES;
  }
  return values;
}
