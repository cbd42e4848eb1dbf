import { type Database, rawClient } from '#db/client.ts';
import type { RebuildWindow } from './find-rebuild-windows.ts';
import { readBinaryCopy } from './read-binary-copy.ts';

/** A reading as the gates and stretches want it. */
export interface StoredReading {
  vehicle: number;
  /** ms since 1970 */
  atMs: number;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  torquePct: number | null;
  speedKmh: number | null;
  shifting: boolean | null;
  codes: string[] | null;
}

/** Readings of vehicles within their spans of time, with so many more on either side, by vehicle in order of time. */
export async function readReadings(
  db: Database,
  windows: readonly RebuildWindow[],
  guard: number,
): Promise<Map<number, StoredReading[]>> {
  const known = new Map<number, StoredReading[]>(windows.map(({ vehicle }) => [vehicle, []]));
  const rows = await readBinaryCopy(
    rawClient(db),
    `select r.vehicle, r.at, r.odometer_km, r.slip_rpm, r.duty_pct, r.fluid_c, r.load_pct, r.torque_pct, r.speed_kmh,
      r.shifting, r.codes
    from (values ${windows.map(toValues).join(', ')}) as j(vehicle, from_at, to_at)
    join reading_spans s on s.vehicle = j.vehicle
    cross join lateral (select
      coalesce((select min(at) from (select at from readings
        where vehicle = s.vehicle and at < j.from_at order by at desc limit ${guard}) b), j.from_at) as from_at,
      coalesce((select max(at) from (select at from readings
        where vehicle = s.vehicle and at > j.to_at order by at limit ${guard}) a), j.to_at) as to_at
      offset 0) g
    cross join lateral (select * from readings
      where vehicle = s.vehicle and at >= g.from_at and at <= g.to_at order by at) r`,
    (row): StoredReading => ({
      vehicle: row.integer(),
      atMs: row.instantMs(),
      odometerKm: row.real(),
      slipRpm: row.real(),
      dutyPct: row.real(),
      fluidC: row.realOrNull(),
      loadPct: row.realOrNull(),
      torquePct: row.realOrNull(),
      speedKmh: row.realOrNull(),
      shifting: row.boolean(),
      codes: row.texts(),
    }),
  );
  for (const row of rows) known.get(row.vehicle)?.push(row);
  return known;
}

const toValues = ({ vehicle, fromAt, toAt }: RebuildWindow): string =>
  `(${vehicle}, '${fromAt.toISOString()}'::timestamptz, '${toAt.toISOString()}'::timestamptz)`;

/** How many readings of each vehicle lie within its span of time. */
export async function countReadings(
  db: Database,
  windows: readonly RebuildWindow[],
): Promise<Map<number, number>> {
  const rows = await rawClient(db)<{ vehicle: number; n: number }[]>`
    select j.vehicle, (select count(*) from readings r
      where r.vehicle = j.vehicle and r.at between j."fromAt" and j."toAt") as n
    from jsonb_to_recordset(${JSON.stringify(windows)}::text::jsonb)
      as j(vehicle integer, "fromAt" timestamptz, "toAt" timestamptz)`;
  return new Map(rows.map(({ vehicle, n }) => [vehicle, n]));
}
