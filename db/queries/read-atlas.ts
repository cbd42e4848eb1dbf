import { and, eq, isNull, type SQL, sql } from 'drizzle-orm';
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

/** The platform plainly, not by way of an expression: its share of the vehicles is then known to the planner. */
const ofPart = ({ platform, sight }: AtlasPart): SQL =>
  and(platform === '' ? isNull(vehicles.platform) : eq(vehicles.platform, platform), seenBy(sight)) ??
  sql`true`;

export interface AtlasReach {
  /** moment of the newest reading; null where there is none */
  to: Date | null;
  /** unit numbers of the vehicles with stretches */
  units: string[];
}

export async function readAtlasReach(db: Database, part: AtlasPart): Promise<AtlasReach> {
  const [row] = await db.execute<{ to: Date | string | null; units: string[] }>(sql`
    select max((select r.last_at from reading_spans r where r.vehicle = ${vehicles.key})) as to,
      coalesce(array_agg(${vehicles.unit} order by ${vehicles.unit}), '{}') as units
    from ${vehicles}
    where ${ofPart(part)} and exists (select from stretches s where s.vehicle = ${vehicles.key})`);
  return { to: row?.to == null ? null : new Date(row.to), units: row?.units ?? [] };
}

/** Readings whose stretches have their mean condition in one step and their slip in one fine step. */
export interface AtlasCell {
  band: number;
  /** number of the step of command or, at the reference point, of temperature */
  step: number;
  /** number of the fine step of slip */
  fine: number;
  n: number;
  /** mean over the readings, rpm */
  slipRpm: number;
  stretches: number;
}

export interface AtlasSteps {
  commandPct: number;
  fluidC: number;
  slipRpm: number;
}

/** Band -1 is the series at the reference point. */
const isReference = sql`s.band = -1`;
const stepOf = ({ commandPct, fluidC }: Omit<AtlasSteps, 'slipRpm'>): SQL =>
  sql`floor(case when ${isReference} then s.fluid_c / ${fluidC}::float8 else s.duty_pct / ${commandPct}::float8 end)::integer`;

/** Stretches of the command bands, and those at the reference point whose feed has a temperature. */
const inPeriod = (period: AtlasPeriod): SQL => sql`from stretches s
  join ${vehicles} on ${vehicles.key} = s.vehicle
  where ${ofPart(period)} and s.last_at >= ${period.from.toISOString()}::timestamptz
    and (not ${isReference} or s.fluid_c is not null)`;

export async function readAtlasCells(
  db: Database,
  period: AtlasPeriod,
  steps: AtlasSteps,
): Promise<AtlasCell[]> {
  return await db.execute<AtlasCell & Record<string, unknown>>(sql`
    select s.band, ${stepOf(steps)} as step, floor(s.slip_rpm / ${steps.slipRpm}::float8)::integer as fine,
      sum(s.n)::integer as n, sum(s.n * s.slip_rpm) / sum(s.n) as "slipRpm", count(*)::integer as stretches
    ${inPeriod(period)}
    group by 1, 2, 3`);
}

/** How many vehicles stand behind a step, and behind all. */
export interface AtlasVehicles {
  /** at the reference point, so a step of temperature */
  isFluid: boolean;
  /** null for all steps together */
  step: number | null;
  vehicles: number;
}

export async function countAtlasVehicles(
  db: Database,
  period: AtlasPeriod,
  steps: Omit<AtlasSteps, 'slipRpm'>,
): Promise<AtlasVehicles[]> {
  return await db.execute<AtlasVehicles & Record<string, unknown>>(sql`
    select "isFluid", step, count(distinct vehicle)::integer as vehicles
    from (select distinct s.vehicle, ${isReference} as "isFluid", ${stepOf(steps)} as step ${inPeriod(period)}) as each
    group by grouping sets (("isFluid", step), ("isFluid"))`);
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
