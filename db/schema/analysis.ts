import { sql } from 'drizzle-orm';
import {
  bigint,
  doublePrecision,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  real,
  smallint,
  text,
} from 'drizzle-orm/pg-core';
import { instant } from './columns.ts';

/**
 * A short run of kilometres of one life, summarised for one command band. Band -1 is the series at the reference
 * point: all usable readings, those near the reference duty counting most.
 */
export const stretches = pgTable(
  'stretches',
  {
    vehicle: integer('vehicle').notNull(),
    /** number of the life within the vehicle, from 1 */
    life: smallint('life').notNull(),
    band: smallint('band').notNull(),
    /** floor of odometer over stretch length */
    stretch: integer('stretch').notNull(),
    firstAt: instant('first_at').notNull(),
    lastAt: instant('last_at').notNull(),
    /** usable readings */
    n: integer('n').notNull(),
    /** sum of the weights */
    weight: doublePrecision('weight').notNull(),
    /** effective count, (sum w)^2 / sum w^2 */
    effective: doublePrecision('effective').notNull(),
    /** weighted mean odometer, km */
    odometerKm: doublePrecision('odometer_km').notNull(),
    /** robust location and scale of slip, rpm */
    slipRpm: doublePrecision('slip_rpm').notNull(),
    scaleRpm: doublePrecision('scale_rpm').notNull(),
    /** weighted mean conditions; temperature and load null where not known */
    dutyPct: doublePrecision('duty_pct').notNull(),
    fluidC: doublePrecision('fluid_c'),
    loadPct: doublePrecision('load_pct'),
    /** weighted centred cross products of the readings kept, in the order the engine documents */
    moments: doublePrecision('moments').array().notNull(),
  },
  (table) => [primaryKey({ columns: [table.vehicle, table.life, table.band, table.stretch] })],
);

/** What a stretch held in all, usable or not. */
export const stretchTotals = pgTable(
  'stretch_totals',
  {
    vehicle: integer('vehicle').notNull(),
    life: smallint('life').notNull(),
    stretch: integer('stretch').notNull(),
    firstAt: instant('first_at').notNull(),
    lastAt: instant('last_at').notNull(),
    usable: integer('usable').notNull(),
    /** month (YYYY-MM) to reason to count */
    setAside: jsonb('set_aside').$type<Record<string, Record<string, number>>>().notNull(),
    /** usable readings per bin of fluid temperature, all 0 where none has it, and of load */
    fluidBins: integer('fluid_bins').array().notNull(),
    loadBins: integer('load_bins').array(),
    /** sum over readings of slip power, kW, and their count, where torque is known */
    heatKwSum: real('heat_kw_sum'),
    heatN: integer('heat_n').notNull().default(0),
    /** sum of the speeds of the readings in that sum, km/h: power over speed is energy per km */
    heatSpeedSum: real('heat_speed_sum'),
    /** trouble codes seen, with the moment of the first and last sight */
    codes: jsonb('codes').$type<Record<string, { first: string; last: string; n: number }>>().notNull(),
    /** of all that is stored of the stretch: one that comes out the same again is not written again; null for none yet */
    digest: text('digest'),
  },
  (table) => [
    primaryKey({ columns: [table.vehicle, table.life, table.stretch] }),
    // Few stretches have a code: who sent one is found without reading the others.
    index('stretch_totals_codes').on(table.vehicle).where(sql`${table.codes} <> '{}'`),
  ],
);

/** Steps of a vehicle's odometer: the instrument was changed, or set back. */
export const odometerSteps = pgTable(
  'odometer_steps',
  {
    vehicle: integer('vehicle').notNull(),
    at: instant('at').notNull(),
    /** added to every odometer value from `at` on, km */
    offsetKm: doublePrecision('offset_km').notNull(),
  },
  (table) => [primaryKey({ columns: [table.vehicle, table.at] })],
);

/** What somebody said of a step of an odometer. Kept apart from the steps, which are found anew with late readings. */
export const odometerAnswers = pgTable(
  'odometer_answers',
  {
    vehicle: integer('vehicle').notNull(),
    /** moment of the step */
    at: instant('at').notNull(),
    /** changed: the instrument was changed or set; misread: it was not, the figures were wrong for a while */
    answer: text('answer', { enum: ['changed', 'misread'] }).notNull(),
    note: text('note').notNull().default(''),
    answeredAt: instant('answered_at').notNull(),
    answeredBy: text('answered_by').notNull(),
  },
  (table) => [primaryKey({ columns: [table.vehicle, table.at] })],
);

/** What one vehicle's stretches say, with its place in the inspection list. */
export const assessments = pgTable(
  'assessments',
  {
    vehicle: integer('vehicle').primaryKey(),
    asOf: instant('as_of').notNull(),
    rank: integer('rank').notNull(),
    grade: text('grade', { enum: ['hold', 'book', 'watch', 'steady', 'unknown'] }).notNull(),
    pattern: text('pattern').notNull(),
    life: smallint('life').notNull(),
    referenceSlipRpm: doublePrecision('reference_slip_rpm'),
    baselineRpm: doublePrecision('baseline_rpm'),
    limitRpm: doublePrecision('limit_rpm').notNull(),
    onsetKm: doublePrecision('onset_km'),
    driftRpmPerKm: doublePrecision('drift_rpm_per_km'),
    driftLow: doublePrecision('drift_low'),
    driftHigh: doublePrecision('drift_high'),
    /** p of no drift, and q over the fleet */
    p: doublePrecision('p'),
    q: doublePrecision('q'),
    kmP10: doublePrecision('km_p10'),
    kmP50: doublePrecision('km_p50'),
    kmP90: doublePrecision('km_p90'),
    kmPerDay: doublePrecision('km_per_day'),
    chance: doublePrecision('chance'),
    costAvoided: doublePrecision('cost_avoided'),
    /** the closed packet that keeps the list calm about it, as of the last rank; null where none does */
    calmPacket: bigint('calm_packet', { mode: 'number' }),
    /** what the rank over the fleet needs, small: it is read for every vehicle */
    facts: jsonb('facts').notNull(),
    /** what a row of the list shows beside the columns: reasons, what is missing, spark */
    brief: jsonb('brief').notNull(),
    /** fit, forecast and band rises, for the vehicle's own screen */
    detail: jsonb('detail').notNull(),
  },
  (table) => [
    index('assessments_rank').on(table.rank),
    index('assessments_grade').on(table.grade, table.rank),
    // What every page of the list asks of the whole fleet, to count it, to let some through and to put them in order: rows themselves
    // are wide, nearly a page of storage each, and only those that are shown are read.
    index('assessments_listed').on(
      table.vehicle,
      table.grade,
      table.asOf,
      table.rank,
      table.chance,
      table.kmP50,
      table.referenceSlipRpm,
      table.driftRpmPerKm,
    ),
  ],
);

/** Changes of grade, for the history. */
export const gradeChanges = pgTable(
  'grade_changes',
  {
    vehicle: integer('vehicle').notNull(),
    at: instant('at').notNull(),
    from: text('from_grade'),
    to: text('to_grade').notNull(),
    odometerKm: doublePrecision('odometer_km'),
    /** the first reason, as the engine gives it */
    why: jsonb('why'),
  },
  (table) => [primaryKey({ columns: [table.vehicle, table.at] })],
);

/**
 * What the vehicles of a platform have in common, learned from their stretches: effects of load, temperature and
 * duty, the common movement by week, usual baselines and rates of wear. '' stands for vehicles with no platform.
 */
export const platformContexts = pgTable('platform_contexts', {
  platform: text('platform').primaryKey(),
  asOf: instant('as_of').notNull(),
  vehicles: integer('vehicles').notNull(),
  /** days between first and last reading, summed over the vehicles, when it was learned */
  vehicleDays: doublePrecision('vehicle_days').notNull(),
  context: jsonb('context').notNull(),
  /** medians over the vehicles of what the converters fitted now have borne, null where too few tell */
  usualHeatMjPer1000km: doublePrecision('usual_heat_mj_per_1000km'),
  heatVehicles: integer('heat_vehicles').notNull().default(0),
  /** share of usable readings with hot fluid, 0 to 1 */
  usualHotShare: doublePrecision('usual_hot_share'),
  hotVehicles: integer('hot_vehicles').notNull().default(0),
});

/** Platforms that somebody asked to be learned again, with the vehicles touched until then. */
export const duePlatforms = pgTable(
  'due_platforms',
  {
    /** '' for vehicles with no platform */
    platform: text('platform').notNull(),
    since: instant('since').notNull(),
  },
  (table) => [primaryKey({ columns: [table.platform, table.since] })],
);

/** Steps of the common movement, dated and sized. */
export const fleetEvents = pgTable(
  'fleet_events',
  {
    platform: text('platform').notNull(),
    at: instant('at').notNull(),
    sizeRpm: doublePrecision('size_rpm').notNull(),
    vehicles: integer('vehicles').notNull(),
  },
  (table) => [primaryKey({ columns: [table.platform, table.at] })],
);
