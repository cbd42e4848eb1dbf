import {
  bigserial,
  doublePrecision,
  index,
  integer,
  json,
  jsonb,
  pgTable,
  primaryKey,
  text,
  uniqueIndex,
} from 'drizzle-orm/pg-core';
import { people } from './access.ts';
import { bytes, instant } from './columns.ts';

/**
 * Life of each platform's converters as it was fitted, with its day; the newest of a platform is what the list reckons
 * with. A row is added only where the fit has changed.
 */
export const lifeFits = pgTable(
  'life_fits',
  {
    platform: text('platform').notNull(),
    fittedAt: instant('fitted_at').notNull(),
    /** own failures; few, with the fleet's shape; none, so the fleet's life; or the expected life of the settings */
    basis: text('basis', { enum: ['own', 'shared_shape', 'fleet', 'expected'] }).notNull(),
    /** of the platform, watched */
    lives: integer('lives').notNull(),
    failures: integer('failures').notNull(),
    fleetFailures: integer('fleet_failures').notNull(),
    shape: doublePrecision('shape').notNull(),
    scaleKm: doublePrecision('scale_km').notNull(),
    /** variances and covariance of log scale and log shape; null where the life was not fitted */
    varLogScale: doublePrecision('var_log_scale'),
    varLogShape: doublePrecision('var_log_shape'),
    covLogs: doublePrecision('cov_logs'),
  },
  (table) => [primaryKey({ columns: [table.platform, table.fittedAt] })],
);

/**
 * How the converters of a vehicle were used week by week, summed from its quiet stretches: made when somebody asks, or after
 * an assessment. Whoever changes stretches counts the version up and empties the weeks in the same transaction, so that
 * sums of stretches that are gone are never read nor stored.
 */
export const lifeWeeks = pgTable('life_weeks', {
  vehicle: integer('vehicle').primaryKey(),
  version: integer('version').notNull(),
  /** what they were made with: the platform's limit, and the number of its top command band */
  limitRpm: doublePrecision('limit_rpm'),
  topBand: integer('top_band'),
  /** as `db/queries/make-life-weeks.ts` writes them; null where they are to be made */
  weeks: json('weeks'),
});

/** Replays: what was asked, how far they are, what came of them. */
export const replays = pgTable(
  'replays',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    askedAt: instant('asked_at').notNull(),
    /** short name of who asked, as `senderOf` gives it, and the name that people know */
    asker: text('asker').notNull(),
    askedBy: text('asked_by').notNull(),
    /** depots that whoever asked may see; null for all */
    depots: text('depots').array(),
    request: jsonb('request').notNull(),
    state: text('state', { enum: ['waiting', 'running', 'done', 'cancelled', 'failed'] }).notNull(),
    startedAt: instant('started_at'),
    endedAt: instant('ended_at'),
    /** vehicle days */
    done: integer('done').notNull().default(0),
    of: integer('of').notNull().default(0),
    /** how often it was begun, but for those that the program put back as it was stopped */
    attempts: integer('attempts').notNull().default(0),
    /** when the program that works on it last said so */
    aliveAt: instant('alive_at'),
    result: jsonb('result'),
    error: text('error'),
  },
  (table) => [index('replays_asked').on(table.askedAt)],
);

/** Tables that somebody asked to keep in the workbench. */
export const workbenchSets = pgTable(
  'workbench_sets',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    person: text('person')
      .notNull()
      .references(() => people.id, { onDelete: 'cascade' }),
    name: text('name').notNull(),
    kind: text('kind', { enum: ['series', 'lives'] }).notNull(),
    /** gzip of the text as it was pasted */
    text: bytes('text').notNull(),
    characters: integer('characters').notNull(),
    choice: jsonb('choice').notNull(),
    storedAt: instant('stored_at').notNull(),
  },
  (table) => [uniqueIndex('workbench_sets_name').on(table.person, table.name)],
);
