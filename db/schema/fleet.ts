import {
  boolean,
  doublePrecision,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  serial,
  text,
} from 'drizzle-orm/pg-core';
import { instant } from './columns.ts';

interface Hours {
  /** local clock time, HH:MM */
  from: string;
  to: string;
}

/** A vehicle and transmission type with its limits. */
export const platforms = pgTable('platforms', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  /** reference slip at which the clutch counts as failed, rpm */
  limitRpm: doublePrecision('limit_rpm').notNull(),
  /** rising edges of the command bands, % duty */
  bandEdgesPct: doublePrecision('band_edges_pct').array().notNull(),
  /** point at which slip is compared: duty_pct, load_pct, fluid_c */
  reference: jsonb('reference').$type<{ duty_pct: number; load_pct: number; fluid_c: number }>().notNull(),
  /** rules for steady lockup */
  gate: jsonb('gate')
    .$type<{
      low_load_pct: number;
      overrun_slip_rpm: number;
      low_speed_kmh: number;
      cold_fluid_c: number;
      hot_fluid_c: number;
      duty_step_pct: number;
      duty_window_s: number;
    }>()
    .notNull(),
  /** expected converter life, km */
  lifeKm: doublePrecision('life_km'),
  /** resistance of coil and wiring, ohm; supply, V; how far a current may lie from the expected, % */
  solenoid: jsonb('solenoid').$type<{
    ohm: number;
    supply_v: number;
    wiring_ohm: number;
    tolerance_pct: number;
  }>(),
  /** in the fleet's own currency; old units at hand that can go back instead of the one removed */
  converter: jsonb('converter').$type<{ price: number; core_deposit: number; spare_cores: number }>(),
  /** engine torque that 100 % torque stands for, N m */
  referenceTorqueNm: doublePrecision('reference_torque_nm'),
  /** in the fleet's own currency */
  costs: jsonb('costs')
    .$type<{ road_failure: number; planned_repair: number; inspection: number; lost_day: number }>()
    .notNull(),
  /** how long an inspection has a bay, h */
  inspectionHours: doublePrecision('inspection_hours').notNull().default(3),
  changedAt: instant('changed_at').notNull().defaultNow(),
});

type Weekday = 'monday' | 'tuesday' | 'wednesday' | 'thursday' | 'friday' | 'saturday' | 'sunday';

/** Assumed for depots that were entered before there were calendars. */
const usualWeek: Record<Weekday, Hours | null> = {
  monday: { from: '07:00', to: '16:00' },
  tuesday: { from: '07:00', to: '16:00' },
  wednesday: { from: '07:00', to: '16:00' },
  thursday: { from: '07:00', to: '16:00' },
  friday: { from: '07:00', to: '16:00' },
  saturday: null,
  sunday: null,
};

export const depots = pgTable('depots', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  bays: integer('bays').notNull(),
  timeZone: text('time_zone').notNull(),
  /** hours of each weekday in the depot's own time; null where nobody works */
  week: jsonb('week').$type<Record<Weekday, Hours | null>>().notNull().default(usualWeek),
  /** holidays and other days that differ from their weekday, in order; null leaves bays or hours as they usually are */
  specialDays: jsonb('special_days')
    .$type<{ day: string; bays: number | null; hours: Hours | null; note: string }[]>()
    .notNull()
    .default([]),
  changedAt: instant('changed_at').notNull().defaultNow(),
});

export const vehicles = pgTable('vehicles', {
  /** short key of every large table */
  key: serial('key').primaryKey(),
  /** the fleet's own unit number */
  unit: text('unit').notNull().unique(),
  depot: text('depot').references(() => depots.id),
  platform: text('platform').references(() => platforms.id),
  vin: text('vin'),
  retired: boolean('retired').notNull().default(false),
  /** false while the vehicle is known from its readings alone */
  registered: boolean('registered').notNull().default(false),
  /** days on which it cannot be taken out of service, both ends included, in order */
  unavailable: jsonb('unavailable')
    .$type<{ from: string; to: string; note: string }[]>()
    .notNull()
    .default([]),
  createdAt: instant('created_at').notNull().defaultNow(),
});

/** One converter in one vehicle, from fitting to removal. */
export const lives = pgTable(
  'lives',
  {
    vehicle: integer('vehicle')
      .notNull()
      .references(() => vehicles.key, { onDelete: 'cascade' }),
    fittedKm: doublePrecision('fitted_km').notNull(),
    fittedAt: instant('fitted_at'),
    source: text('source', { enum: ['original', 'new', 'rebuilt', 'used'] }).notNull(),
    removedKm: doublePrecision('removed_km'),
    removedAt: instant('removed_at'),
    ended: text('ended', { enum: ['failed', 'preventive', 'retired'] }),
    mode: text('mode'),
    supplier: text('supplier'),
    /** what the converter had run before it was fitted here, km; null where nobody has said */
    runKm: doublePrecision('run_km'),
    changedAt: instant('changed_at').notNull().defaultNow(),
  },
  (table) => [primaryKey({ columns: [table.vehicle, table.fittedKm] })],
);

/** Trouble codes that name the converter clutch or its solenoid. First filled by the migration that made the table. */
export const troubleCodes = pgTable('trouble_codes', {
  /** in canonical form: 'P0741', 'P0741-1A', 'SPN 573', 'SPN 573 FMI 7'; without FMI or failure type it stands for any */
  code: text('code').primaryKey(),
  /** what it stands for, in words that follow 'Trouble code P0741' in brackets */
  meaning: text('meaning').notNull(),
  /** where the meaning is from */
  source: text('source').notNull(),
  /** false where it is switched off: known by its meaning, no evidence */
  counts: boolean('counts').notNull().default(true),
  changedAt: instant('changed_at').notNull().defaultNow(),
});

/**
 * Choices of the fleet as a whole, one row each: where grades begin, and what of the settings the fleet was last ranked
 * by, so that a change asks for a new rank however the program ends before that is done.
 */
export const fleetSettings = pgTable('fleet_settings', {
  name: text('name', { enum: ['thresholds', 'ranked_by'] }).primaryKey(),
  value: jsonb('value').notNull(),
  changedAt: instant('changed_at').notNull().defaultNow(),
});
