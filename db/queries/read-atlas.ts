import { and, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

/** Whose stretches an atlas is of, and since when. */
export interface AtlasPart {
  /** '' for vehicles with no platform */
  platform: string;
  sight: Sight;
}

export interface AtlasPeriod extends AtlasPart {
  from: Date;
}

const ofPart = ({ platform, sight }: AtlasPart): SQL =>
  and(sql`coalesce(${vehicles.platform}, '') = ${platform}`, seenBy(sight)) ?? sql`true`;

export interface AtlasReach {
  /** moment of the newest reading; null where there is none */
  to: Date | null;
  /** unit numbers of the vehicles with stretches */
  units: string[];
}

export async function readAtlasReach(db: Database, part: AtlasPart): Promise<AtlasReach> {
  const [row] = await db.execute<{ to: Date | string | null; units: string[] }>(sql`
    select max(${vehicles.lastReadingAt}) as to,
      coalesce(array_agg(${vehicles.unit} order by ${vehicles.unit}), '{}') as units
    from ${vehicles}
    where ${ofPart(part)} and exists (select from stretches s where s.vehicle = ${vehicles.key})`);
  return { to: row?.to == null ? null : new Date(row.to), units: row?.units ?? [] };
}

/** Readings whose stretches have their mean condition in one step and their slip in one fine step. */
export interface AtlasCell {
  band: number;
  /** number of the step of command or temperature */
  step: number;
  /** number of the fine step of slip */
  fine: number;
  n: number;
  /** mean over the readings, rpm */
  slipRpm: number;
  stretches: number;
}

export interface AtlasSteps {
  xStep: number;
  slipStep: number;
}

/** By command: the stretches of the command bands. */
export const readCommandCells = (
  db: Database,
  period: AtlasPeriod,
  steps: AtlasSteps,
): Promise<AtlasCell[]> => readCells(db, period, steps, { x: sql`s.duty_pct`, where: sql`s.band >= 0` });

/** By temperature: the stretches at the reference point, where the feed has one. */
export const readFluidCells = (db: Database, period: AtlasPeriod, steps: AtlasSteps): Promise<AtlasCell[]> =>
  readCells(db, period, steps, { x: sql`s.fluid_c`, where: sql`s.band = -1 and s.fluid_c is not null` });

async function readCells(
  db: Database,
  period: AtlasPeriod,
  { xStep, slipStep }: AtlasSteps,
  { x, where }: { x: SQL; where: SQL },
): Promise<AtlasCell[]> {
  return await db.execute<AtlasCell & Record<string, unknown>>(sql`
    select s.band, floor(${x} / ${xStep}::float8)::integer as step,
      floor(s.slip_rpm / ${slipStep}::float8)::integer as fine, sum(s.n)::integer as n,
      sum(s.n * s.slip_rpm) / sum(s.n) as "slipRpm", count(*)::integer as stretches
    from stretches s join ${vehicles} on ${vehicles.key} = s.vehicle
    where ${ofPart(period)} and s.last_at >= ${period.from.toISOString()}::timestamptz and ${where}
    group by s.band, 2, 3`);
}

/** How many vehicles stand behind each step, and behind all. */
export interface AtlasVehicles {
  /** null for all steps together */
  step: number | null;
  vehicles: number;
}

export const countCommandVehicles = (db: Database, period: AtlasPeriod, xStep: number) =>
  countVehicles(db, period, { x: sql`floor(s.duty_pct / ${xStep}::float8)`, where: sql`s.band >= 0` });

export const countFluidVehicles = (db: Database, period: AtlasPeriod, xStep: number) =>
  countVehicles(db, period, {
    x: sql`floor(s.fluid_c / ${xStep}::float8)`,
    where: sql`s.band = -1 and s.fluid_c is not null`,
  });

async function countVehicles(
  db: Database,
  period: AtlasPeriod,
  { x, where }: { x: SQL; where: SQL },
): Promise<AtlasVehicles[]> {
  return await db.execute<AtlasVehicles & Record<string, unknown>>(sql`
    select step, count(distinct vehicle)::integer as vehicles
    from (select distinct s.vehicle, ${x}::integer as step
      from stretches s join ${vehicles} on ${vehicles.key} = s.vehicle
      where ${ofPart(period)} and s.last_at >= ${period.from.toISOString()}::timestamptz and ${where}) as each
    group by grouping sets ((step), ())`);
}

export interface AtlasStretch {
  band: number;
  dutyPct: number;
  fluidC: number | null;
  slipRpm: number;
  n: number;
  odometerKm: number;
  lastAtMs: number;
}

/** Stretches of one vehicle in the period, oldest first. */
export async function readAtlasStretches(db: Database, vehicle: number, from: Date): Promise<AtlasStretch[]> {
  return await db.execute<AtlasStretch & Record<string, unknown>>(sql`
    select band, duty_pct as "dutyPct", fluid_c as "fluidC", slip_rpm as "slipRpm", n,
      odometer_km as "odometerKm", (extract(epoch from last_at) * 1000)::float8 as "lastAtMs"
    from stretches
    where vehicle = ${vehicle} and last_at >= ${from.toISOString()}::timestamptz
    order by last_at, life, stretch, band`);
}
