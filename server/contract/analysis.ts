import { z } from 'zod';
import { leastTrendPoints } from './workbench-words.ts';

const MOST_POINTS = 100_000;

/** The fourth power of a number of this size, summed over all points, is still a number. */
const LARGEST = 1e60;

const value = z
  .number({ error: ({ input }) => `must be a finite number, not ${sayValue(input)}` })
  .min(-LARGEST, { error: ({ input }) => `must be at least -${LARGEST}, not ${sayValue(input)}` })
  .max(LARGEST, { error: ({ input }) => `must be at most ${LARGEST}, not ${sayValue(input)}` });
const series = z
  .array(value, { error: ({ input }) => `must be a list of numbers, not ${sayValue(input)}` })
  .min(leastTrendPoints, {
    error: ({ input }) =>
      `has ${lengthOf(input)} values; a trend needs at least ${leastTrendPoints}, and some parts need more`,
  })
  .max(MOST_POINTS, {
    error: ({ input }) =>
      `has ${lengthOf(input)} values; at most ${MOST_POINTS} can be taken: thin them, or send medians of stretches`,
  });
/** A number within bounds that the message says. */
const within = (is: (one: number) => boolean, bounds: string) =>
  value.refine(is, { error: ({ input }) => `must be ${bounds}, not ${sayValue(input)}` });
const aboveZero = within((one) => one > 0, 'above 0').meta({ exclusiveMinimum: 0 });

export const confidence = within((one) => one > 0 && one < 1, 'above 0 and below 1')
  .default(0.95)
  .meta({ exclusiveMinimum: 0, exclusiveMaximum: 1 });

export const trendRequest = z
  .strictObject(
    {
      x: series.meta({ description: 'where each value was taken, for instance km or days; in any order' }),
      y: series.meta({ description: 'the values, as many as x, in the same order' }),
      confidence: confidence.meta({ description: 'of the limits of theil_sen, hinge and level_shift' }),
      baseline: z
        .strictObject({
          target: value.optional().meta({ description: 'level that the values should have, unit of y' }),
          sd: aboveZero.optional().meta({
            description: 'standard deviation of one value about it, unit of y',
          }),
        })
        .default({})
        .meta({ description: 'for cusum and ewma; what is left out is estimated from the series' }),
      cusum: z
        .strictObject({
          k: within((one) => one >= 0, '0 or more')
            .default(0.5)
            .meta({ description: 'allowance, in sd', minimum: 0 }),
          h: aboveZero.default(5).meta({ description: 'decision limit, in sd' }),
        })
        .default({ k: 0.5, h: 5 }),
      ewma: z
        .strictObject({
          lambda: within((one) => one > 0 && one <= 1, 'above 0 and at most 1')
            .default(0.2)
            .meta({ description: 'weight of the newest value', exclusiveMinimum: 0, maximum: 1 }),
          width: aboveZero.default(3).meta({ description: 'half width of the limits, in sd of the average' }),
        })
        .default({ lambda: 0.2, width: 3 }),
    },
    {
      error: (issue) =>
        issue.code === 'unrecognized_keys'
          ? 'is not a known field'
          : `must be an object, such as {"x": [1, 2, 3], "y": [4, 5, 7]}, not ${sayValue(issue.input)}`,
    },
  )
  .superRefine(({ x, y }, context) => {
    if (x.length !== y.length) {
      const message = `has ${y.length} values, but x has ${x.length}; each point needs both`;
      context.addIssue({ code: 'custom', path: ['y'], message });
    } else if (x.every((one) => one === x[0])) {
      const message = `is ${x[0]} at every point; a trend needs at least 2 different x`;
      context.addIssue({ code: 'custom', path: ['x'], message });
    }
  })
  .meta({ id: 'TrendRequest', description: 'A series of any kind' });
export type TrendRequest = z.output<typeof trendRequest>;

const place = z.number().meta({ description: 'in the unit of x' });
const level = z.number().meta({ description: 'in the unit of y' });
const rate = z.number().meta({ description: 'unit of y per unit of x' });
const probability = z.number().min(0).max(1);

export const trendParts = z.object({
  ols: z
    .object({
      slope: rate,
      intercept: level,
      se_slope: rate,
      se_intercept: level,
      r2: z.number().nullable().meta({ description: 'null where all y are equal' }),
    })
    .nullable(),
  theil_sen: z
    .object({
      slope: rate,
      intercept: level.meta({ description: 'median(y) - slope median(x)' }),
      low: rate,
      high: rate,
      confidence: z.number(),
    })
    .nullable(),
  mann_kendall: z
    .object({
      s: z.number(),
      var_s: z.number().meta({ description: 'corrected for ties in x and y' }),
      z: z.number(),
      p: probability.meta({ description: 'two-sided' }),
      tau: z.number().min(-1).max(1).meta({ description: 'tau-b' }),
    })
    .nullable(),
  hamed_rao: z
    .object({ var_s: z.number(), z: z.number(), p: probability.meta({ description: 'two-sided' }) })
    .nullable()
    .meta({
      description:
        'mann_kendall with the variance for serial correlation. The values are taken in the order of x as evenly spaced: a gap counts as one step; several values at one x are declined.',
    }),
  hinge: z
    .object({
      break: place.nullable().meta({ description: 'where the rise begins; null where nothing rises' }),
      low: place.nullable(),
      high: place.nullable(),
      before: level,
      slope_after: rate.meta({ description: '0 or more' }),
      p_against_flat: probability.meta({ description: 'one-sided; the search for the break is allowed for' }),
    })
    .nullable(),
  level_shift: z
    .object({
      last_before: place,
      first_after: place,
      low: place,
      high: place,
      before: level,
      after: level,
      f: z.number().nullable().meta({ description: 'null where both levels fit without rest' }),
      p: probability.meta({ description: 'against one level throughout, either direction' }),
      log_ratio: z.number().nullable().meta({
        description:
          'log likelihood of a gradual drift, rising or falling, less that of the shift; null where one of them fits without rest',
      }),
      favours: z.enum(['drift', 'shift', 'neither']).meta({ description: 'neither within -2 to 2' }),
    })
    .nullable(),
  cusum: z
    .object({
      high: level.meta({ description: 'upper sum after the last value' }),
      low: level.meta({ description: 'lower sum after the last value' }),
      first_alarm: place.nullable(),
      target: level,
      sd: level,
      k: z.number(),
      h: z.number(),
    })
    .nullable(),
  ewma: z
    .object({
      last: level.meta({ description: 'average after the last value' }),
      first_alarm: place.nullable(),
      target: level,
      sd: level,
      lambda: z.number(),
      width: z.number(),
    })
    .nullable(),
});
export type TrendParts = z.infer<typeof trendParts>;

/** Why a part of an answer cannot be had. */
export const declinedPart = z.object({
  reason: z.string(),
  needed: z.string().meta({ description: 'what would be enough' }),
  got: z.string().meta({ description: 'what there was' }),
});

export const trendReply = trendParts
  .extend({
    n: z.int(),
    declined: z
      .partialRecord(trendParts.keyof(), declinedPart)
      .meta({ description: 'for each part that is null, why' }),
  })
  .meta({ id: 'TrendReply' });
export type TrendReply = z.infer<typeof trendReply>;

/** A list of so many elements at least and at most, with messages that say how many there were. */
export const listOf = <One extends z.ZodType>(
  one: One,
  { least, most, what }: { least: number; most: number; what: string },
) =>
  z
    .array(one, { error: ({ input }) => `must be a list of ${what}, not ${sayValue(input)}` })
    .min(least, { error: `is empty: nothing can be said without ${what}` })
    .max(most, {
      error: ({ input }) => `has ${lengthOf(input)} ${what}; at most ${most} can be taken at once`,
    });

/** A value of the request in a few words, for messages. */
export function sayValue(input: unknown): string {
  if (input === undefined) return 'left out';
  if (input === null) return 'null';
  if (typeof input === 'number') return Number.isFinite(input) ? `${input}` : 'a number beyond 1.8e308';
  if (typeof input === 'string') return `the text "${input.length > 20 ? `${input.slice(0, 20)}…` : input}"`;
  if (Array.isArray(input)) return 'a list';
  return typeof input === 'object' ? 'an object' : `${typeof input}`;
}

const lengthOf = (input: unknown): number => (Array.isArray(input) ? input.length : 0);
