import { bigint, bigserial, index, jsonb, pgTable, text } from 'drizzle-orm/pg-core';
import { instant } from './columns.ts';

/** What one step of an upkeep did: what it was done to, for how long, and what went wrong. */
export interface UpkeepStep {
  step: 'make_ahead' | 'drop_old' | 'drop_empty' | 'forget' | 'settle';
  /** months as YYYY-MM, or `table count` */
  done: string[];
  ms: number;
  fault: string | null;
}

/** Runs of the upkeep of storage, one a day and one at each start; those of the last 400 days. */
export const upkeepRuns = pgTable(
  'upkeep_runs',
  {
    id: bigserial('id', { mode: 'number' }).primaryKey(),
    startedAt: instant('started_at').notNull(),
    endedAt: instant('ended_at'),
    state: text('state', { enum: ['running', 'done', 'failed', 'stopped'] }).notNull(),
    steps: jsonb('steps').$type<UpkeepStep[]>().notNull(),
  },
  (table) => [index('upkeep_runs_started').on(table.startedAt)],
);

/** Months of readings that are over, as they were when the upkeep last put them in order. */
export const settledMonths = pgTable('settled_months', {
  /** YYYY-MM, UTC */
  month: text('month').primaryKey(),
  /** number of the table in the database's catalogue: another one has to be settled anew */
  tableId: bigint('table_id', { mode: 'number' }).notNull(),
  settledAt: instant('settled_at').notNull(),
  /** counted, not estimated */
  rows: bigint('rows', { mode: 'number' }).notNull(),
  /** null where it has none */
  firstAt: instant('first_at'),
  lastAt: instant('last_at'),
  /** of the rows on disk, without indexes: it grows when late readings come */
  heapBytes: bigint('heap_bytes', { mode: 'number' }).notNull(),
  /** of the index before it was written anew, and after */
  indexBytesBefore: bigint('index_bytes_before', { mode: 'number' }).notNull(),
  indexBytes: bigint('index_bytes', { mode: 'number' }).notNull(),
});
