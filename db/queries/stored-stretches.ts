import { numberOrNull, readArrayAt, takeNumbers } from '#db/read-binary-array.ts';
import { COPY_HEADER } from './copy-format.ts';

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

/** Before each column: of what follows. */
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
  const column = (): Float64Array => {
    const at = next + LENGTH_BYTES;
    next = at + view.getInt32(next);
    return readArrayAt(view, at);
  };
  const [life, band, firstAtMs, lastAtMs, n] = [column(), column(), column(), column(), column()];
  const [weight, effective, odometerKm] = [column(), column(), column()];
  const [slipRpm, scaleRpm, dutyPct] = [column(), column(), column()];
  const [fluidC, loadPct, moments] = [column(), column(), column()];
  const count = life.length;
  const width = moments.length / count;
  const rows: StretchRecord[] = [];
  for (let i = 0; i < count; i++)
    rows.push({
      vehicle,
      life: life[i] ?? 0,
      band: band[i] ?? 0,
      firstAtMs: firstAtMs[i] ?? 0,
      lastAtMs: lastAtMs[i] ?? 0,
      n: n[i] ?? 0,
      weight: weight[i] ?? 0,
      effective: effective[i] ?? 0,
      odometerKm: odometerKm[i] ?? 0,
      slipRpm: slipRpm[i] ?? 0,
      scaleRpm: scaleRpm[i] ?? 0,
      dutyPct: dutyPct[i] ?? 0,
      fluidC: numberOrNull(fluidC[i]),
      loadPct: numberOrNull(loadPct[i]),
      moments: takeNumbers(moments, i * width, width),
    });
  return rows;
}
