import { z } from 'zod';
import { listedBooking } from './bookings.ts';
import { moment, plainText, vehicleUnit } from './readings.ts';
import { grades, outcomes, patterns } from './words.ts';

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
    booking: listedBooking.nullable().meta({ description: 'its open booking' }),
    inspected_on: z.iso.date().nullable().meta({
      description: 'day of an inspection of the last two weeks since which it was not graded worse',
    }),
    calm: z
      .object({
        packet: z.int(),
        outcome: z.enum(outcomes),
        until_km: z.number(),
        on: z.iso.date(),
      })
      .nullable()
      .meta({
        description:
          'a shop found no fault, or the work was declined: graded watch at most up to that mileage, unless something new speaks',
      }),
    week_ago: z
      .object({
        rank: z.int().nullable(),
        grade: z.enum(grades),
        reference_slip_rpm: nullableNumber,
        chance_within_horizon: nullableNumber,
        km_p50: nullableNumber,
      })
      .nullable()
      .meta({
        description:
          'where it stood a week ago; null where nobody knows. Rank and chance are null within another horizon than the usual one, with which they do not compare',
      }),
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

/** What narrows the list, its outlook and its file alike. */
export const rankingFilter = z.object({
  depot: plainText.optional(),
  platform: plainText.optional(),
  lacks: z
    .enum(['depot', 'platform', 'both'])
    .optional()
    .meta({ description: 'vehicles of which nobody has said yet to which depot or platform they belong' }),
  grade: z.string().optional().meta({ description: 'one grade or several, joined by commas' }),
  q: plainText.max(100).optional().meta({ description: 'part of the unit number' }),
  booking: z.enum(['none', 'any', 'open', 'put_off', 'past']).optional().meta({
    description:
      'none: without a booking that waits or has a day; any: with one; open: its time is ahead; put_off: it waits for a day; past: its time is over, and nobody has closed it',
  }),
  changed: z.enum(['worse', 'better', 'any']).optional().meta({
    description:
      'against a week ago; worse: a more urgent grade, or the same (book or watch) and a chance that rose by 0.1 or more; better: the opposite; any: another grade',
  }),
});
export type RankingFilter = z.infer<typeof rankingFilter>;

export const rankingQuery = rankingFilter.extend({
  units: units.optional(),
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

/** As many as one choice may hold. */
export const mostChosen = 1000;

export const rankingUnitsQuery = rankingQuery.omit({ units: true, offset: true }).extend({
  limit: z.coerce
    .number()
    .int()
    .min(1)
    .max(10_000)
    .optional()
    .meta({ description: `${mostChosen} where left out, which is as many as a choice may hold` }),
});
export type RankingUnitsQuery = z.infer<typeof rankingUnitsQuery>;

export const rankingUnits = z.object({ total: z.int(), vehicles: z.array(z.string()) }).meta({
  id: 'RankingUnits',
  description: `Unit numbers in the order of the list, the first ${mostChosen} of them`,
});
export type RankingUnits = z.infer<typeof rankingUnits>;

const outlookVehicle = z.object({
  vehicle: z.string(),
  grade: z.enum(grades),
  seen_to: z.boolean().meta({
    description: 'its booked day is ahead, or it was inspected within two weeks and not graded worse since',
  }),
});

export const outlookWeek = z.object({
  week: z.iso.date().meta({ description: 'Monday of the week' }),
  expected: z
    .number()
    .meta({ description: 'expected number of vehicles, not seen to, that reach their limit in this week' }),
  vehicles: z.array(outlookVehicle).meta({ description: 'vehicles whose p50 falls in this week' }),
  bay_days: z.int().meta({
    description: 'whole bay days of the depots asked for that are worked in this week and not booked',
  }),
});

export const outlook = z
  .object({
    as_of: moment.nullable(),
    counts: z.record(z.enum(grades), z.int()),
    overdue: z.array(outlookVehicle).meta({ description: 'vehicles past their limit' }),
    weeks: z.array(outlookWeek),
  })
  .meta({ id: 'Outlook', description: 'Vehicles by grade, and when the drifting ones reach their limits' });
export type Outlook = z.infer<typeof outlook>;

export const assessReply = z
  .object({ assessed: z.int(), as_of: moment.nullable(), seconds: z.number() })
  .meta({ id: 'AssessReply' });

export const explainQuery = z.object({
  vehicle: vehicleUnit,
  against: vehicleUnit.optional().meta({ description: 'the next one down the list where left out' }),
  horizon_km: z.coerce.number().min(100).max(100_000).optional(),
  units: units.optional(),
});
export type ExplainQuery = z.output<typeof explainQuery>;

const weighed = z.object({
  vehicle: z.string(),
  rank: z.int(),
  grade: z.enum(grades),
  chance: z.number().meta({ description: 'counted with, within the horizon' }),
  at_stake: z.number().meta({ description: 'what a road failure costs over a planned repair' }),
  inspection: z.number().meta({ description: 'inspection and lost day' }),
  cost_avoided: z.number().meta({ description: 'chance times at_stake, less inspection' }),
});

export const explanation = z
  .object({
    horizon_km: z.number(),
    above: weighed,
    below: weighed.nullable(),
    sentences: z.array(z.string()).meta({ description: 'why the one stands above the other' }),
  })
  .meta({ id: 'Explanation' });
export type Explanation = z.infer<typeof explanation>;

export const savedFilter = z
  .object({
    id: z.int(),
    name: z.string(),
    search: z.string().meta({ description: "query of the list's address, without the question mark" }),
  })
  .meta({ id: 'SavedFilter' });
export type SavedFilter = z.infer<typeof savedFilter>;

export const mostSavedFilters = 50;

export const savedFilterRequest = z
  .object({
    name: plainText.trim().min(1).max(60),
    search: plainText.max(1000),
  })
  .meta({
    id: 'SavedFilterRequest',
    description: `A filter of the same name is replaced; at most ${mostSavedFilters} a person`,
  });
