import { sql } from 'drizzle-orm';
import {
  bigserial,
  boolean,
  date,
  doublePrecision,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  real,
  smallint,
  text,
  uuid,
} from 'drizzle-orm/pg-core';
import { instant } from './columns.ts';

/**
 * Every reading as it came, converted to metric. Partitioned by month of `at` (the migration says how; drizzle
 * does not know partitions). Keyed by vehicle and time: the same pair twice is a duplicate and the first stays.
 * Values are 4-byte floats: 0.03 km at 500,000 km, far finer than any instrument here.
 */
export const readings = pgTable(
  'readings',
  {
    at: instant('at').notNull(),
    vehicle: integer('vehicle').notNull(),
    /** km */
    odometerKm: real('odometer_km').notNull(),
    /** engine minus turbine speed, rpm */
    slipRpm: real('slip_rpm').notNull(),
    /** commanded duty, % */
    dutyPct: real('duty_pct').notNull(),
    /** transmission fluid, degC */
    fluidC: real('fluid_c'),
    /** engine load, % */
    loadPct: real('load_pct'),
    /** engine torque, % of the reference torque */
    torquePct: real('torque_pct'),
    throttlePct: real('throttle_pct'),
    speedKmh: real('speed_kmh'),
    /** length of the window that was averaged, s */
    seconds: real('seconds'),
    gear: smallint('gear'),
    shifting: boolean('shifting'),
    /** trouble codes active */
    codes: text('codes').array(),
    /** when it arrived, where that was over a day after its moment; null for all others */
    arrivedAt: instant('arrived_at'),
  },
  (table) => [primaryKey({ columns: [table.vehicle, table.at] })],
);

/**
 * From when to when the readings of a vehicle reach. A table of its own, since every delivery changes it: a vehicle's
 * record stays as people left it.
 */
export const readingSpans = pgTable('reading_spans', {
  vehicle: integer('vehicle').primaryKey(),
  firstAt: instant('first_at').notNull(),
  lastAt: instant('last_at').notNull(),
  /** of the newest reading, as the instrument showed it, km */
  odometerKm: doublePrecision('odometer_km').notNull(),
});

/** The stored answer to one delivery. */
export const receipts = pgTable(
  'receipts',
  {
    id: uuid('id').primaryKey(),
    at: instant('at').notNull().defaultNow(),
    /** whose key or session brought it */
    sender: text('sender'),
    contentType: text('content_type').notNull(),
    /** false where the body broke off */
    complete: boolean('complete').notNull(),
    received: integer('received').notNull(),
    stored: integer('stored').notNull(),
    duplicate: integer('duplicate').notNull(),
    conflicting: integer('conflicting').notNull(),
    refused: integer('refused').notNull(),
    /** the sender's Idempotency-Key and the SHA-256 of the body that it named */
    idempotencyKey: text('idempotency_key').unique(),
    bodySha256: text('body_sha256'),
    /** the reply as it was sent: status and document */
    status: smallint('status').notNull(),
    reply: jsonb('reply').notNull(),
    /** when its last line was stored; null while it comes in, and of receipts older than this column */
    endedAt: instant('ended_at'),
    /** name of the file, or of the topic */
    file: text('file'),
    /** how its lines are read, so that a refused one can be read again; null where that was not kept */
    readWith: jsonb('read_with'),
  },
  (table) => [index('receipts_at').on(table.at), index('receipts_sender').on(table.sender, table.at)],
);

/** Lines that could not be a reading, as they came. */
export const refusedLines = pgTable(
  'refused_lines',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    receipt: uuid('receipt').notNull(),
    /** line of the body, from 1 */
    line: integer('line').notNull(),
    raw: text('raw').notNull(),
    errors: jsonb('errors').$type<{ field: string; message: string }[]>().notNull(),
    /** unit number where the line named one */
    unit: text('unit'),
    at: instant('at').notNull().defaultNow(),
    /** its first error as one text, by which lines with the same fault are found: 'field message' */
    fault: text('fault').notNull(),
    /** open; let in, corrected or by a rule; laid aside by somebody who looked at it */
    state: text('state', { enum: ['open', 'let_in', 'laid_aside'] })
      .notNull()
      .default('open'),
    settledAt: instant('settled_at'),
    settledBy: text('settled_by'),
    /** the receipt under which it was let in */
    letInReceipt: uuid('let_in_receipt'),
  },
  (table) => [
    index('refused_lines_receipt').on(table.receipt, table.line),
    index('refused_lines_unit').on(table.unit),
    index('refused_lines_open').on(table.fault, table.id).where(sql`${table.state} = 'open'`),
    index('refused_lines_settled').on(table.state, table.id).where(sql`${table.state} <> 'open'`),
  ],
);

/** How the files of a sender are read, by name. */
export const mappings = pgTable('mappings', {
  name: text('name').primaryKey(),
  /** as `server/contract/mappings.ts` says */
  mapping: jsonb('mapping').notNull(),
  changedAt: instant('changed_at').notNull().defaultNow(),
  changedBy: text('changed_by').notNull(),
});

/** Readings that a sender brought of a vehicle, by the week in which they were taken: which gateway a vehicle reports through. */
export const senderWeeks = pgTable(
  'sender_weeks',
  {
    sender: text('sender').notNull(),
    vehicle: integer('vehicle').notNull(),
    /** its Monday, UTC */
    week: date('week', { mode: 'string' }).notNull(),
    stored: integer('stored').notNull(),
  },
  (table) => [
    primaryKey({ columns: [table.vehicle, table.week, table.sender] }),
    index('sender_weeks_sender').on(table.sender, table.week),
  ],
);

/** Vehicles with readings newer than their stretches, and the span of time that those readings touch. A delivery widens it. */
export const touchedVehicles = pgTable('touched_vehicles', {
  vehicle: integer('vehicle').primaryKey(),
  fromAt: instant('from_at').notNull(),
  toAt: instant('to_at').notNull(),
  /** when it was touched first, by the clock of the database */
  since: instant('since').notNull().defaultNow(),
});

/**
 * Touched vehicles that an assessment has taken in hand, until the fleet is ranked with them; what is delivered meanwhile
 * touches them anew. One whose worker is gone is free for every other.
 */
export const claimedVehicles = pgTable('claimed_vehicles', {
  vehicle: integer('vehicle').primaryKey(),
  /** the span that was touched; null where only what follows from the stretches is to be done again */
  fromAt: instant('from_at'),
  toAt: instant('to_at'),
  since: instant('since').notNull(),
  /** what is to be done next */
  next: text('next', { enum: ['stretches', 'assessment', 'rank'] }).notNull(),
  /** number of the worker that has it, which holds a lock of that number while it lives */
  claimedBy: integer('claimed_by'),
});
