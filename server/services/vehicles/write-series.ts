import type { VehicleSeries } from '#server/contract/vehicle.ts';
import type { SeriesPoint } from '#server/engine/assessment/build-series.ts';
import type { Context } from '#server/services/context.ts';
import type { WrittenJson } from '#server/services/written-json.ts';
import { findPlacedVehicle } from './find-vehicle.ts';
import { describeSeries } from './get-series.ts';
import { JsonBytes } from './json-bytes.ts';

type Shown = keyof VehicleSeries['series'][number]['points'][number];

const key = (name: Shown, before = ','): Uint8Array => Buffer.from(`${before}"${name}":`);
const LIFE = key('life', '{');
const ODOMETER = key('odometer_km');
const AT = key('at');
const SLIP = key('slip_rpm');
const MEASURED = key('measured_rpm');
const SPREAD = key('spread_rpm');
const WEIGHT = key('weight');
const DUTY = key('duty_pct');
const FLUID = key('fluid_c');
const LOAD = key('load_pct');
const NULL = Buffer.from('null');
const OPEN = Buffer.from('[');
const CLOSE = Buffer.from(']');
const END = Buffer.from('}');
const COMMA = Buffer.from(',');

/** Written within one turn, so that one is enough. */
const out = new JsonBytes();

/** The series of a vehicle as JSON: the same as of `seriesOf`, but that its points, by far the most of it, are written from the engine's. */
export async function writeSeries(ctx: Context, unit: string): Promise<WrittenJson<VehicleSeries>> {
  const described = await describeSeries(ctx, await findPlacedVehicle(ctx, unit));
  writeObject(described, (name, value) =>
    name === 'series' ? writeList(described.series, writeBand) : out.value(value),
  );
  return { bytes: out.take() };
}

type Described = Awaited<ReturnType<typeof describeSeries>>;

const writeBand = (band: Described['series'][number]): void =>
  writeObject(band, (name, value) =>
    name === 'points' ? writeList(band.points, writePoint) : out.value(value),
  );

function writePoint(point: SeriesPoint): void {
  out.plain(LIFE);
  out.whole(point.life);
  out.plain(ODOMETER);
  out.whole(point.km);
  out.plain(AT);
  out.moment(point.atMs);
  out.plain(SLIP);
  out.tenth(point.slipRpm);
  out.plain(MEASURED);
  out.tenth(point.measuredRpm);
  out.plain(SPREAD);
  out.tenth(point.seRpm);
  out.plain(WEIGHT);
  out.tenth(point.weight);
  out.plain(DUTY);
  out.tenth(point.dutyPct);
  out.plain(FLUID);
  writeKnown(point.fluidC);
  out.plain(LOAD);
  writeKnown(point.loadPct);
  out.plain(END);
}

const writeKnown = (value: number | null): void => (value === null ? out.plain(NULL) : out.tenth(value));

function writeObject(object: object, write: (name: string, value: unknown) => void): void {
  let before = '{';
  for (const [name, value] of Object.entries(object)) {
    out.plain(Buffer.from(`${before}"${name}":`));
    write(name, value);
    before = ',';
  }
  out.plain(END);
}

function writeList<T>(list: readonly T[], write: (one: T) => void): void {
  out.plain(OPEN);
  for (let i = 0; i < list.length; i++) {
    if (i > 0) out.plain(COMMA);
    write(list[i] as T);
  }
  out.plain(CLOSE);
}
