import { type Database, rawClient } from '#db/client.ts';
import { readBinaryArray, readBinaryNumbers } from '#db/read-binary-array.ts';
import type { StretchRecord } from './read-stretches.ts';

interface Columns extends Record<string, Buffer> {
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
  const [columns] = await rawClient(db)<(Columns | { [name in keyof Columns]: null })[]>`
    select array_send(array_agg(life)) as life, array_send(array_agg(band)) as band,
      array_send(array_agg(first_at)) as "firstAt", array_send(array_agg(last_at)) as "lastAt",
      array_send(array_agg(n)) as n, array_send(array_agg(weight)) as weight,
      array_send(array_agg(effective)) as effective, array_send(array_agg(odometer_km)) as "odometerKm",
      array_send(array_agg(slip_rpm)) as "slipRpm", array_send(array_agg(scale_rpm)) as "scaleRpm",
      array_send(array_agg(duty_pct)) as "dutyPct", array_send(array_agg(fluid_c)) as "fluidC",
      array_send(array_agg(load_pct)) as "loadPct", array_send(array_agg(moments)) as moments
    from (select * from stretches where vehicle = ${vehicle} order by life, band, stretch) own`;
  return columns === undefined || columns.life === null ? [] : toRows(vehicle, columns as Columns);
}

function toRows(vehicle: number, columns: Columns): StretchRecord[] {
  const lives = readBinaryNumbers(columns.life);
  const of = (name: keyof Columns) => {
    const values = readBinaryNumbers(columns[name] as Buffer);
    return (i: number) => values[i] ?? 0;
  };
  const known = (name: keyof Columns) => {
    const values = readBinaryArray(columns[name] as Buffer);
    return (i: number) => values[i] ?? null;
  };
  const [band, n, weight, effective] = [of('band'), of('n'), of('weight'), of('effective')];
  const [firstAtMs, lastAtMs, odometerKm] = [of('firstAt'), of('lastAt'), of('odometerKm')];
  const [slipRpm, scaleRpm, dutyPct] = [of('slipRpm'), of('scaleRpm'), of('dutyPct')];
  const [fluidC, loadPct] = [known('fluidC'), known('loadPct')];
  const moments = readBinaryNumbers(columns.moments);
  const width = moments.length / lives.length;
  return lives.map((life, i) => ({
    vehicle,
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
