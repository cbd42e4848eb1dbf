import { z } from 'zod';
import { columnTakes, fileUnits, mappedFields, mapping } from './mappings.ts';
import { fieldError } from './problems.ts';
import { moment } from './readings.ts';

const count = z.int().min(0);
const number = z.number().nullable();

/** A reading as it would be stored. */
const seenReading = z
  .object({
    vehicle: z.string(),
    at: moment,
    odometer_km: z.number(),
    slip_rpm: z.number(),
    duty_pct: z.number(),
    fluid_c: number,
    load_pct: number,
    torque_pct: number,
    throttle_pct: number,
    speed_kmh: number,
    gear: number,
    shifting: z.boolean().nullable(),
    seconds: number,
    codes: z.array(z.string()).nullable(),
  })
  .meta({ id: 'SeenReading' });
export type SeenReading = z.infer<typeof seenReading>;

const guess = z.object({ takes: z.enum(columnTakes), unit: z.enum(fileUnits).nullable() }).nullable();

const seenColumn = z
  .object({
    column: z.string(),
    samples: z.array(z.string()).meta({ description: 'the first cells that differ, at most five' }),
    guess,
    why: z.string().meta({ description: 'what the guess rests on, in words; empty where there is none' }),
  })
  .meta({ id: 'SeenColumn' });
export type SeenColumn = z.infer<typeof seenColumn>;

const seenName = z
  .object({
    name: z.string(),
    values: count,
    samples: z.array(z.string()),
    guess: z.object({ field: z.enum(mappedFields), unit: z.enum(fileUnits).nullable() }).nullable(),
  })
  .meta({ id: 'SeenName', description: 'A name in the name column of a long layout' });
export type SeenName = z.infer<typeof seenName>;

/** Said beside what it concerns. */
const doubt = z
  .object({
    about: z.enum(['form', 'columns', 'vehicle', 'time', 'log']).meta({
      description:
        'form: separator, encoding, lines before the names, decimal sign, layout; columns: what they are taken for, their units; log: a CAN log',
    }),
    column: z.string().nullable().default(null).meta({
      description: 'the column, or the name in a long layout, where it is about one',
    }),
    message: z.string().meta({ description: 'a sentence' }),
  })
  .meta({ id: 'Doubt' });
export type Doubt = z.output<typeof doubt>;

/** What a CAN log held. */
export const canSummary = z
  .object({
    lines: count,
    frames: count.meta({ description: 'data frames with a 29-bit identifier' }),
    first_s: number.meta({ description: 'first and last time in the log, s by its own clock' }),
    last_s: number,
    clock: z.enum(['since_1970', 'from_start']).nullable(),
    groups: z
      .array(
        z.object({
          pgn: z.int(),
          source: z.int(),
          name: z.string().nullable(),
          frames: count,
        }),
      )
      .meta({ description: 'frames by parameter group and source address, most first, at most 200' }),
    signals: z.array(
      z.object({
        name: z.string(),
        spn: z.int(),
        pgn: z.int(),
        source: z
          .int()
          .nullable()
          .meta({ description: 'the address that is used; null where it was never valid' }),
        bus: z.string().nullable().meta({
          description: 'the interface it is read from, as the log calls it: a bus may be logged twice',
        }),
        sources: z.array(z.int()).meta({ description: 'all addresses that sent it' }),
        valid: count,
        not_available: count,
        error: count,
        low: number,
        high: number,
        unit: z.string(),
      }),
    ),
    vins: z.array(z.object({ vin: z.string(), source: z.int(), warning: z.string().nullable() })),
    codes: z.array(z.object({ code: z.string(), source: z.int(), seconds: z.number() })),
    left_out: z
      .array(z.object({ why: z.string(), lines: count, first_line: z.int(), raw: z.string() }))
      .meta({
        description: 'broken lines, remote frames, CAN FD, 11-bit identifiers, lost packets and so on',
      }),
    windows: z.object({ steady_lockup: count, not: count, without: count }).meta({
      description: 'windows with steady lockup, without it, and those that made no reading',
    }),
  })
  .meta({ id: 'CanSummary' });
export type CanSummary = z.infer<typeof canSummary>;

/** What a file would come to; nothing of it is stored. */
export const look = z
  .object({
    format: z.enum(['csv', 'ndjson', 'json', 'can']),
    gzip: z.boolean(),
    whole: z.boolean().meta({ description: 'false: only the beginning was looked at' }),
    own_form: z.boolean().meta({ description: 'the columns have our own names: no mapping is needed' }),
    mapping: mapping
      .nullable()
      .meta({ description: 'CSV: the mapping it was read with: yours, or the proposed one' }),
    columns: z.array(seenColumn),
    names: z.array(seenName),
    doubts: z.array(doubt).meta({ description: 'what could be meant otherwise, for whoever knows the file' }),
    lacks: z
      .array(fieldError)
      .meta({ description: 'why no row can be read yet: what mapping and given leave out' }),
    lines: count.meta({ description: 'rows, or moments of a long layout, that were looked at' }),
    good: count,
    bad: count,
    first_at: moment.nullable(),
    last_at: moment.nullable(),
    vehicles: z.array(z.object({ vehicle: z.string(), readings: count, known: z.boolean() })).meta({
      description: 'most readings first, at most 100',
    }),
    vehicles_total: count,
    rows: z
      .array(
        z.object({
          line: z.int(),
          raw: z.string(),
          reading: seenReading.nullable(),
          errors: z.array(fieldError),
        }),
      )
      .meta({ description: 'the first twenty, as they would be read' }),
    faults: z
      .array(
        z.object({ field: z.string(), message: z.string(), lines: count, line: z.int(), raw: z.string() }),
      )
      .meta({ description: 'what would be refused, by fault, most first, with the first line of each' }),
    can: canSummary.nullable(),
  })
  .meta({ id: 'Look', description: 'What a file would come to. Nothing of it was stored' });
export type Look = z.infer<typeof look>;
