import { z } from 'zod';
import { moment, plainText } from './readings.ts';
import { grades, patterns } from './words.ts';

const nullableNumber = z.number().nullable();

export const interval = z
  .object({ estimate: z.number(), low: z.number(), high: z.number() })
  .meta({ id: 'Interval', description: '95 % interval' });

export const distance = z.object({ p10: nullableNumber, p50: nullableNumber, p90: nullableNumber }).meta({
  id: 'Distance',
  description: 'null where nothing drifts or beyond the scale, 0 where the limit is passed',
});
export type Distance = z.infer<typeof distance>;

export const rankingRow = z
  .object({
    rank: z.int(),
    vehicle: z.string(),
    depot: z.string().nullable(),
    platform: z.string().nullable(),
    grade: z.enum(grades),
    odometer_km: nullableNumber,
    km_per_day: nullableNumber,
    last_reading_at: moment.nullable(),
    reference_slip_rpm: nullableNumber,
    baseline_rpm: nullableNumber,
    limit_rpm: nullableNumber,
    onset_km: nullableNumber,
    drift_rpm_per_1000km: interval.nullable(),
    q_value: nullableNumber,
    chance_within_horizon: nullableNumber,
    km_to_limit: distance,
    days_to_limit: distance,
    expected_cost_avoided: nullableNumber,
    pattern: z.enum(patterns),
    reasons: z.array(z.string()),
    missing: z.array(z.string()),
    spark: z
      .array(z.tuple([z.number(), z.number()]))
      .meta({ description: 'odometer km and reference slip rpm of the last 10,000 km' }),
  })
  .meta({ id: 'RankingRow' });
export type RankingRow = z.infer<typeof rankingRow>;

export const rankingSorts = [
  'rank',
  'vehicle',
  'chance',
  'distance',
  'slip',
  'drift',
  'last_reading',
] as const;

/** Units in which sentences are worded; numbers stay metric, with the unit in their names. */
export const units = z.enum(['metric', 'imperial']);

export const rankingQuery = z.object({
  units: units.optional(),
  depot: plainText.optional(),
  platform: plainText.optional(),
  grade: z.string().optional().meta({ description: 'one grade or several, joined by commas' }),
  q: plainText.max(100).optional().meta({ description: 'part of the unit number' }),
  horizon_km: z.coerce.number().min(100).max(100_000).optional(),
  sort: z.enum(rankingSorts).optional(),
  limit: z.coerce.number().int().min(1).max(1000).optional(),
  offset: z.coerce.number().int().min(0).max(10_000_000).optional(),
});
export type RankingQuery = z.infer<typeof rankingQuery>;

export const ranking = z
  .object({ as_of: moment.nullable(), horizon_km: z.number(), total: z.int(), rows: z.array(rankingRow) })
  .meta({ id: 'Ranking', description: 'The inspection list' });
export type Ranking = z.infer<typeof ranking>;

export const outlookWeek = z.object({
  week: z.iso.date().meta({ description: 'Monday of the week' }),
  expected: z
    .number()
    .meta({ description: 'expected number of vehicles that reach their limit in this week' }),
  vehicles: z
    .array(z.object({ vehicle: z.string(), grade: z.enum(grades) }))
    .meta({ description: 'vehicles whose p50 falls in this week' }),
  bay_days: z.int().meta({ description: 'bay days free in this week, of the depots asked for' }),
});

export const outlook = z
  .object({
    as_of: moment.nullable(),
    counts: z.record(z.enum(grades), z.int()),
    overdue: z.array(z.object({ vehicle: z.string(), grade: z.enum(grades) })).meta({
      description: 'vehicles past their limit',
    }),
    weeks: z.array(outlookWeek),
  })
  .meta({ id: 'Outlook', description: 'Vehicles by grade, and when the drifting ones reach their limits' });
export type Outlook = z.infer<typeof outlook>;

export const assessReply = z
  .object({ assessed: z.int(), as_of: moment.nullable(), seconds: z.number() })
  .meta({ id: 'AssessReply' });
