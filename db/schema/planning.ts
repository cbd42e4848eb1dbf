import { sql } from 'drizzle-orm';
import {
  bigserial,
  date,
  doublePrecision,
  index,
  integer,
  pgTable,
  primaryKey,
  text,
  uniqueIndex,
} from 'drizzle-orm/pg-core';
import { people } from './access.ts';
import { bytes, instant } from './columns.ts';
import { depots, vehicles } from './fleet.ts';

/**
 * Planned inspections. A booking that is put off has no bay and no day and waits for new ones; cancelled and done ones
 * keep theirs. The migration that made the table added an exclusion: no two booked ones share a bay at any moment.
 */
export const bookings = pgTable(
  'bookings',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    vehicle: integer('vehicle')
      .notNull()
      .references(() => vehicles.key, { onDelete: 'cascade' }),
    state: text('state', { enum: ['booked', 'put_off', 'cancelled', 'done'] }).notNull(),
    depot: text('depot')
      .notNull()
      .references(() => depots.id),
    /** number of the bay within the depot, from 1 */
    bay: integer('bay'),
    /** in the depot's own time */
    day: date('day', { mode: 'string' }),
    startsAt: instant('starts_at'),
    endsAt: instant('ends_at'),
    /** how long a bay is to be taken, kept while it waits for a day; null where nobody has said, as its platform takes */
    hours: doublePrecision('hours'),
    /** for the shop */
    note: text('note'),
    /** why it was put off, moved, cancelled, or what came of it */
    reason: text('reason'),
    /** counts the changes: who changes it names the one that they saw */
    version: integer('version').notNull().default(1),
    createdAt: instant('created_at').notNull(),
    createdBy: text('created_by').notNull(),
    changedAt: instant('changed_at').notNull(),
    changedBy: text('changed_by').notNull(),
  },
  (table) => [
    // A vehicle has one open booking.
    uniqueIndex('bookings_open').on(table.vehicle).where(sql`state in ('booked', 'put_off')`),
    index('bookings_vehicle').on(table.vehicle, table.id),
    index('bookings_depot').on(table.depot, table.day),
  ],
);

/** Secret addresses at which calendars fetch the bookings of a depot; one each. */
export const depotFeeds = pgTable('depot_feeds', {
  depot: text('depot')
    .primaryKey()
    .references(() => depots.id, { onDelete: 'cascade' }),
  /** SHA-256 of the secret, which has 256 random bits */
  digest: bytes('digest').notNull().unique(),
  createdAt: instant('created_at').notNull(),
  createdBy: text('created_by').notNull(),
  usedAt: instant('used_at'),
});

/** Where each vehicle stood in the list on a day, as first ranked on it: what has changed since is told from these. */
export const standings = pgTable(
  'standings',
  {
    vehicle: integer('vehicle').notNull(),
    /** UTC */
    day: date('day', { mode: 'string' }).notNull(),
    rank: integer('rank').notNull(),
    grade: text('grade', { enum: ['hold', 'book', 'watch', 'steady', 'unknown'] }).notNull(),
    referenceSlipRpm: doublePrecision('reference_slip_rpm'),
    kmP50: doublePrecision('km_p50'),
    chance: doublePrecision('chance'),
  },
  (table) => [primaryKey({ columns: [table.vehicle, table.day] }), index('standings_day').on(table.day)],
);

/** Filters of the inspection list that people keep under a name. */
export const savedFilters = pgTable(
  'saved_filters',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    person: text('person')
      .notNull()
      .references(() => people.id, { onDelete: 'cascade' }),
    name: text('name').notNull(),
    /** query of the list's address, without the question mark */
    search: text('search').notNull(),
    createdAt: instant('created_at').notNull(),
  },
  (table) => [uniqueIndex('saved_filters_name').on(table.person, table.name)],
);

/** Weekly digests that were sent, or are being sent: each person gets each week's once. */
export const sentDigests = pgTable(
  'sent_digests',
  {
    person: text('person')
      .notNull()
      .references(() => people.id, { onDelete: 'cascade' }),
    /** Monday of the week that the digest opens */
    week: date('week', { mode: 'string' }).notNull(),
    /** null while the mail server has not taken it */
    sentAt: instant('sent_at'),
    tries: integer('tries').notNull().default(0),
    triedAt: instant('tried_at'),
    problem: text('problem'),
  },
  (table) => [primaryKey({ columns: [table.person, table.week] })],
);
