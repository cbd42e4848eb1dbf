import { type Database, type RawClient, rawClient } from '#db/client.ts';
import { readBinaryArray, readBinaryNumbers } from '#db/read-binary-array.ts';
import type { StretchRecord } from './read-stretches.ts';

interface Columns extends Record<string, Buffer> {
  vehicle: Buffer;
  life: Buffer;
  band: Buffer;
  firstAt: Buffer;
  lastAt: Buffer;
  n: Buffer;
  weight: Buffer;
  effective: Buffer;
  odometerKm: Buffer;
  slipRpm: Buffer;
  scaleRpm: Buffer;
  dutyPct: Buffer;
  fluidC: Buffer;
  loadPct: Buffer;
  moments: Buffer;
}

/** Stretches of one vehicle in order of life, band and kilometres: by columns, in binary, because somebody waits for them. */
export async function readOwnStretches(db: Database, vehicle: number): Promise<StretchRecord[]> {
  const client = rawClient(db);
  return toRows(await readColumns(client, client`vehicle = ${vehicle}`));
}

/** The same of some vehicles, of one band alone. */
export async function readBandStretches(
  db: Database,
  vehicles: readonly number[],
  band: number,
): Promise<StretchRecord[]> {
  const client = rawClient(db);
  return toRows(
    await readColumns(client, client`vehicle = any(${[...vehicles]}::integer[]) and band = ${band}`),
  );
}

type Fragment = ReturnType<RawClient>;

const readColumns = (client: RawClient, where: Fragment) =>
  client<(Columns | { [name in keyof Columns]: null })[]>`
    select array_send(array_agg(vehicle)) as vehicle, array_send(array_agg(life)) as life,
      array_send(array_agg(band)) as band,
      array_send(array_agg(first_at)) as "firstAt", array_send(array_agg(last_at)) as "lastAt",
      array_send(array_agg(n)) as n, array_send(array_agg(weight)) as weight,
      array_send(array_agg(effective)) as effective, array_send(array_agg(odometer_km)) as "odometerKm",
      array_send(array_agg(slip_rpm)) as "slipRpm", array_send(array_agg(scale_rpm)) as "scaleRpm",
      array_send(array_agg(duty_pct)) as "dutyPct", array_send(array_agg(fluid_c)) as "fluidC",
      array_send(array_agg(load_pct)) as "loadPct", array_send(array_agg(moments)) as moments
    from (select * from stretches where ${where} order by vehicle, life, band, stretch) own`;

function toRows([found]: readonly (Columns | { [name in keyof Columns]: null })[]): StretchRecord[] {
  if (found === undefined || found.life === null) return [];
  const columns = found as Columns;
  const lives = readBinaryNumbers(columns.life);
  const of = (name: keyof Columns) => {
    const values = readBinaryNumbers(columns[name] as Buffer);
    return (i: number) => values[i] ?? 0;
  };
  const known = (name: keyof Columns) => {
    const values = readBinaryArray(columns[name] as Buffer);
    return (i: number) => values[i] ?? null;
  };
  const vehicle = of('vehicle');
  const [band, n, weight, effective] = [of('band'), of('n'), of('weight'), of('effective')];
  const [firstAtMs, lastAtMs, odometerKm] = [of('firstAt'), of('lastAt'), of('odometerKm')];
  const [slipRpm, scaleRpm, dutyPct] = [of('slipRpm'), of('scaleRpm'), of('dutyPct')];
  const [fluidC, loadPct] = [known('fluidC'), known('loadPct')];
  const moments = readBinaryNumbers(columns.moments);
  const width = moments.length / lives.length;
  return lives.map((life, i) => ({
    vehicle: vehicle(i),
    life,
    band: band(i),
    firstAtMs: firstAtMs(i),
    lastAtMs: lastAtMs(i),
    n: n(i),
    weight: weight(i),
    effective: effective(i),
    odometerKm: odometerKm(i),
    slipRpm: slipRpm(i),
    scaleRpm: scaleRpm(i),
    dutyPct: dutyPct(i),
    fluidC: fluidC(i),
    loadPct: loadPct(i),
    moments: moments.slice(i * width, (i + 1) * width),
  }));
}
