import { z } from 'zod';
import { moment } from './readings.ts';

const bytes = z.int().min(0);
const rows = z.int().min(0);
const month = z
  .string()
  .regex(/^\d{4}-\d{2}$/)
  .meta({ description: 'YYYY-MM, UTC' });
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

/** `settled`: over, and put in order by the upkeep. */
export const storedMonthStates = ['ahead', 'open', 'over', 'settled'] as const;

export const storedMonth = z
  .object({
    month,
    state: z.enum(storedMonthStates).meta({
      description:
        'ahead: made for what comes; open: readings arrive; over: to be put in order; settled: in order, its rows counted',
    }),
    rows: rows.meta({ description: 'readings; an estimate where it says so' }),
    estimated: z.boolean(),
    heap_bytes: bytes.meta({ description: 'of the readings, without their index' }),
    index_bytes: bytes,
    first_at: moment
      .nullable()
      .meta({ description: 'of its readings; of a sample of them where rows are an estimate' }),
    last_at: moment.nullable(),
    drops_on: day.nullable().meta({ description: 'when retention drops it; null where all is kept' }),
    alone: z.boolean().meta({
      description: 'far from every other month with readings: look whether a clock was wrong',
    }),
  })
  .meta({ id: 'StoredMonth' });
export type StoredMonth = z.infer<typeof storedMonth>;

const storedTable = z.object({
  name: z.string(),
  holds: z.string().meta({ description: 'in words' }),
  ends: z.string().meta({ description: 'what takes its rows away, in words' }),
  rows: rows.meta({ description: 'an estimate' }),
  heap_bytes: bytes.meta({ description: 'of its rows, without indexes' }),
  index_bytes: bytes,
});
export type StoredTable = z.infer<typeof storedTable>;

export const upkeepSteps = ['make_ahead', 'drop_old', 'drop_empty', 'forget', 'settle'] as const;

const upkeepRun = z
  .object({
    id: z.int(),
    started_at: moment,
    ended_at: moment.nullable(),
    state: z.enum(['running', 'done', 'failed', 'stopped']).meta({
      description: 'stopped: the program ended first; the next run does it',
    }),
    steps: z.array(
      z.object({
        step: z.enum(upkeepSteps),
        done: z.array(z.string()).meta({ description: 'months, or a table and how many of its rows' }),
        seconds: z.number().min(0),
        fault: z.string().nullable(),
      }),
    ),
  })
  .meta({ id: 'UpkeepRun' });
export type UpkeepRun = z.infer<typeof upkeepRun>;

export const storageReport = z
  .object({
    as_of: moment,
    database_bytes: bytes,
    readings: z.object({
      rows: rows.meta({ description: 'an estimate where one of its months is' }),
      bytes,
      bytes_per_reading: z.number().nullable().meta({ description: 'with index; null without readings' }),
    }),
    growth: z
      .object({
        month: month.meta({ description: 'of which the rate is taken' }),
        readings_per_day: z.number(),
        bytes_per_day: z.number().meta({ description: 'of all tables, as they grow with readings' }),
      })
      .nullable()
      .meta({ description: 'null where neither this month nor the one before has a day of readings' }),
    disk: z
      .object({
        free_bytes: bytes,
        full_on: day.nullable().meta({
          description: 'at this rate, with what retention drops; null where that is not within ten years',
        }),
      })
      .nullable()
      .meta({ description: 'null where the database is on a server of yours' }),
    retention: z.object({
      readings_months: z.int().meta({ description: '0 keeps all' }),
      receipts_months: z.int().meta({ description: '0 keeps all' }),
      next: z.object({ month, rows, bytes, on: day }).nullable(),
    }),
    months: z.array(storedMonth).meta({ description: 'the oldest first' }),
    tables: z.array(storedTable).meta({ description: 'the largest first' }),
    waiting_vehicles: z.int().meta({ description: 'with readings that no assessment has seen yet' }),
    upkeep: z.object({
      next_at: moment.nullable().meta({ description: 'null while it runs, and before the first' }),
      runs: z.array(upkeepRun).meta({ description: 'the newest first' }),
    }),
  })
  .meta({ id: 'StorageReport' });
export type StorageReport = z.infer<typeof storageReport>;
