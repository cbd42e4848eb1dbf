import { z } from 'zod';
import { confidence, declinedPart, listOf, sayValue } from './analysis.ts';
import { lifeSources } from './words.ts';

const MOST_LIVES = 100_000;
export const MOST_COVARIATES = 10;
/** Tests and curves of more groups, or modes, than this say nothing to a reader and take minutes. */
export const MOST_LIFE_GROUPS = 50;
/** Beyond it powers of the Weibull leave the range of numbers. */
export const LARGEST_USE = 1e12;

const mileage = (least: 'zero' | 'above') =>
  z
    .number({ error: ({ input }) => `must be a finite number, not ${sayValue(input)}` })
    .refine((one) => (least === 'zero' ? one >= 0 : one > 0) && one <= LARGEST_USE, {
      error: ({ input }) =>
        `must be ${least === 'zero' ? '0 or more' : 'above 0'} and at most ${LARGEST_USE}, not ${sayValue(input)}`,
    });

const word = z
  .string({ error: ({ input }) => `must be a text, not ${sayValue(input)}` })
  .trim()
  .min(1, { error: 'must not be empty: leave it out where it is not known' })
  .max(120);

/** JSON writers often put null for what is not known. */
const orNull = <One extends z.ZodType>(one: One) => one.nullish().transform((value) => value ?? undefined);

export const analysedLife = z
  .strictObject(
    {
      exit: mileage('above').meta({
        description: 'where the life ended or was last seen, km or any other unit of use',
      }),
      entry: mileage('zero')
        .nullish()
        .transform((value) => value ?? 0)
        .meta({
          description:
            'where it was first seen: before it, the life could not have been seen to end; 0 where left out',
        }),
      event: z
        .union([z.boolean(), z.literal(0), z.literal(1)], {
          error: ({ input }) =>
            `must be true (it failed at exit) or false (it ran on), not ${sayValue(input)}`,
        })
        .transform(Boolean),
      mode: orNull(word).meta({ description: 'what failed; of no meaning where event is false' }),
      group: orNull(word),
      covariates: orNull(
        z
          .record(
            z.string().min(1).max(60),
            z
              .number({ error: ({ input }) => `must be a finite number, not ${sayValue(input)}` })
              .min(-LARGEST_USE, { error: `must be at least ${-LARGEST_USE}` })
              .max(LARGEST_USE, { error: `must be at most ${LARGEST_USE}` })
              .nullable(),
          )
          .refine((all) => Object.keys(all).length <= MOST_COVARIATES, {
            error: ({ input }) =>
              `has ${Object.keys(input as object).length} names; at most ${MOST_COVARIATES} can be taken`,
          }),
      ).meta({
        description: `exposures for the Cox regression by name, at most ${MOST_COVARIATES}; a life that lacks one is left out there`,
      }),
      count: z
        .int({ error: ({ input }) => `must be a whole number, not ${sayValue(input)}` })
        .min(1, { error: ({ input }) => `must be 1 or more, not ${sayValue(input)}` })
        .max(1_000_000, { error: ({ input }) => `must be at most 1000000, not ${sayValue(input)}` })
        .nullish()
        .transform((value) => value ?? 1)
        .meta({ description: 'how many lives are like this one; 1 where left out' }),
    },
    {
      error: (issue) =>
        issue.code === 'unrecognized_keys'
          ? 'is not a known field'
          : `must be an object, such as {"exit": 120000, "event": true}, not ${sayValue(issue.input)}`,
    },
  )
  .superRefine((life, context) => {
    if (life.exit > 0 && life.entry >= life.exit)
      context.addIssue({
        code: 'custom',
        path: ['entry'],
        message: `is ${life.entry}, but must be below exit, ${life.exit}: nothing was seen of this life`,
      });
  });
export type AnalysedLife = z.output<typeof analysedLife>;

const requestOf = <One extends z.ZodType>(one: One) =>
  z.strictObject(
    {
      lives: listOf(one, { least: 1, most: MOST_LIVES, what: 'lives' }),
      confidence: confidence.meta({ description: 'of all bounds' }),
    },
    {
      error: (issue) =>
        issue.code === 'unrecognized_keys'
          ? 'is not a known field'
          : `must be an object, such as {"lives": [{"exit": 120000, "event": true}]}, not ${sayValue(issue.input)}`,
    },
  );

/** The request but for its lives: of 100,000 each may be wrong, so that they are read one by one. */
export const livesEnvelope = requestOf(z.unknown());

export const livesRequest = requestOf(analysedLife).meta({
  id: 'LivesRequest',
  description: 'Life data of any kind, with late entry and right censoring',
});
export type LivesRequest = z.output<typeof livesRequest>;

const use = z.number().meta({ description: 'in the unit of exit' });
const share = z.number().min(0).max(1);
const bounded = z.object({ estimate: z.number(), low: z.number(), high: z.number() });
export type Bounded = z.infer<typeof bounded>;
const declined = declinedPart.meta({ id: 'Declined' });
const notes = z
  .array(z.string())
  .meta({ description: 'what a reader of these numbers must know, as sentences; mostly empty' });

export const kaplanMeierPoint = z.object({
  x: use.meta({ description: 'where lives failed' }),
  at_risk: z.int().meta({ description: 'entry < x <= exit' }),
  events: z.int(),
  censored: z
    .int()
    .meta({ description: 'lives that ran on, seen last from here until before the next point' }),
  survival: share,
  se: z.number().nullable().meta({ description: 'Greenwood; null where nobody is left' }),
  low: share.nullable().meta({ description: 'log-log bound; null where survival is 0 or 1' }),
  high: share.nullable(),
});

export const nelsonAalenPoint = z.object({ x: use, cumulative_hazard: z.number(), se: z.number() });

export const weibullFit = z.object({
  shape: z.number(),
  scale: use.meta({ description: '63.2 % have failed by then' }),
  se_shape: z.number(),
  se_scale: z.number(),
  se_log_scale: z.number(),
  /** of log scale and log shape, for bounds of any quantile */
  cov_log_scale_log_shape: z.number(),
  loglik: z.number(),
  shape_low: z.number(),
  shape_high: z.number(),
  scale_low: z.number(),
  scale_high: z.number(),
  b10: bounded.meta({ description: '10 % have failed by then' }),
  b50: bounded,
});
export type WeibullFit = z.infer<typeof weibullFit>;

export const lognormalFit = z.object({
  mu: z.number(),
  sigma: z.number(),
  se_mu: z.number(),
  se_sigma: z.number(),
  loglik: z.number(),
  sigma_low: z.number(),
  sigma_high: z.number(),
  b10: bounded,
  b50: bounded,
});
export type LognormalFit = z.infer<typeof lognormalFit>;

export const incidenceCurve = z.object({
  mode: z.string(),
  events: z.int(),
  points: z
    .array(z.object({ x: use, incidence: share, se: z.number() }))
    .meta({ description: 'where lives failed in this mode: between them nothing changes' }),
});
export type IncidenceCurve = z.infer<typeof incidenceCurve>;

const groupParts = {
  kaplan_meier: z.array(kaplanMeierPoint),
  nelson_aalen: z.array(nelsonAalenPoint),
  median: bounded
    .extend({ low: use.nullable(), high: use.nullable() })
    .nullable()
    .meta({ description: 'first x at which survival is one half or less; null where it stays above' }),
  weibull: weibullFit.nullable(),
  lognormal: lognormalFit.nullable(),
  weibull_by_mode: z
    .array(
      z.object({
        mode: z.string(),
        events: z.int(),
        weibull: weibullFit.nullable(),
        declined: declined.nullable(),
      }),
    )
    .meta({
      description:
        'each mode with failures of the others taken as running on; empty where fewer than 2 modes failed',
    }),
  cumulative_incidence: z
    .array(incidenceCurve)
    .meta({ description: 'Aalen-Johansen; empty where no failure has a mode' }),
};

export const livesGroup = z.object({
  name: z.string(),
  n: z.int(),
  events: z.int(),
  late_entries: z.int().meta({ description: 'lives with entry above 0' }),
  exposed: use.meta({ description: 'use that was watched, all lives together' }),
  at_risk: z.array(z.object({ x: use, n: z.int() })).meta({
    description:
      'lives under watch from after x until the next x, the last with n 0; with more than 400 changes, at 400 even steps',
  }),
  running_at: z.array(use).meta({
    description:
      'where lives that ran on were last seen, one mark a place; with more than 400, every so many',
  }),
  ...groupParts,
  notes,
  declined: z.partialRecord(z.enum(['weibull', 'lognormal', 'cumulative_incidence']), declined),
});
export type LivesGroup = z.infer<typeof livesGroup>;

export const coxTerm = z.object({
  name: z.string(),
  coef: z.number(),
  se: z.number(),
  z: z.number(),
  p: share,
  hazard_ratio: z.number().meta({ description: 'for one more of the unit of the exposure' }),
  low: z.number(),
  high: z.number(),
  mean: z.number(),
  sd: z.number().meta({ description: 'between the lives: for telling what one usual step does' }),
});
export type CoxTerm = z.infer<typeof coxTerm>;

export const livesReply = z
  .object({
    n: z.int(),
    events: z.int(),
    groups: z.array(livesGroup),
    logrank: z
      .object({
        chisq: z.number(),
        df: z.int(),
        p: share,
        groups: z.array(z.object({ name: z.string(), observed: z.number(), expected: z.number() })),
      })
      .nullable(),
    cox: z
      .object({
        terms: z.array(coxTerm),
        loglik: z.number(),
        loglik_null: z.number(),
        lr_chisq: z.number(),
        p: share.meta({ description: 'of the likelihood ratio against no exposure at all' }),
        n: z.int().meta({ description: 'lives with all covariates' }),
        events: z.int(),
      })
      .nullable(),
    confidence: z.number(),
    notes,
    declined: z
      .partialRecord(z.enum(['logrank', 'cox']), declined)
      .meta({ description: 'for each of these that is null, why' }),
  })
  .meta({ id: 'LivesReply' });
export type LivesReply = z.infer<typeof livesReply>;

/**
 * What telemetry tells of how a converter was used: means and, in %, shares of usable readings over its life as far as it was
 * seen and its slip was quiet; where a period is chosen, over the whole weeks within it.
 */
export const exposures = [
  'fluid_c',
  'hot_pct',
  'load_pct',
  'partial_lockup_pct',
  'heat_mj_per_1000km',
] as const;
export type Exposure = (typeof exposures)[number];

export const lifeGroupings = ['platform', 'depot', 'source', 'supplier', 'mode', ...exposures] as const;
export type LifeGrouping = (typeof lifeGroupings)[number];

export const lifeRecords = ['first_reading', 'fitting'] as const;
export const lifeCounts = ['failed', 'failed_and_preventive'] as const;

/** One or several words with commas between; an empty text is none. */
const several = z
  .string()
  .transform((text) => text.split(',').filter((one) => one !== ''))
  .pipe(z.array(z.string().max(120)).max(50));

export const fleetLivesQuery = z.object({
  group_by: z
    .enum(lifeGroupings)
    .optional()
    .meta({ description: 'an exposure groups by thirds of its values; left out: one group' }),
  platform: several.optional().meta({ description: 'ids with commas between; left out: all' }),
  depot: several.optional(),
  source: several.pipe(z.array(z.enum(lifeSources))).optional(),
  from: z.iso.date().optional().meta({
    description:
      'first day of the period: lives enter where they stood then, and how they were used counts in its whole weeks (Thursday to Wednesday, UTC)',
  }),
  to: z.iso
    .date()
    .optional()
    .meta({ description: 'last day: what ended later runs on, and later use does not count' }),
  records: z.enum(lifeRecords).default('first_reading').meta({
    description:
      'from where a life counts as watched: `first_reading` of its vehicle, so that lives which ended before are left out; or its `fitting`, where the records of replacements are complete since the vehicles were new',
  }),
  count: z.enum(lifeCounts).default('failed').meta({
    description:
      '`failed_and_preventive`: a converter taken out before it failed, with a mode found, counts as a failure there',
  }),
  confidence: z.coerce.number().gt(0).lt(1).default(0.95),
});
export type FleetLivesQuery = z.output<typeof fleetLivesQuery>;

/** How the life of a platform's converters entered the list. */
export const lifeFit = z.object({
  platform: z.string(),
  fitted_at: z.iso.datetime(),
  basis: z.enum(['own', 'shared_shape', 'fleet', 'expected']).meta({
    description:
      '`own` failures; few own failures with the `shared_shape` of the fleet; none, so the life of the `fleet`; or the `expected` life of the settings',
  }),
  lives: z.int().nullable().meta({
    description: 'watched, of the platform at all depots; null, as the next two, for people of some depots',
  }),
  failures: z.int().nullable(),
  fleet_failures: z.int().nullable(),
  shape: z.number(),
  scale_km: z.number(),
  b10_km: bounded.extend({ low: z.number().nullable(), high: z.number().nullable() }),
  b50_km: bounded.extend({ low: z.number().nullable(), high: z.number().nullable() }),
  says: z.string().meta({ description: 'the same as a sentence' }),
});
export type LifeFit = z.infer<typeof lifeFit>;

export const fleetLivesReply = livesReply
  .extend({
    as_of: z.iso.datetime(),
    grouped_by: z.enum(lifeGroupings).nullable(),
    /** thirds of an exposure in words are the screen's part: it knows the reader's units */
    thirds: z
      .array(z.object({ name: z.string(), from: z.number(), to: z.number() }))
      .nullable()
      .meta({ description: 'where grouped by an exposure: the values of each group' }),
    left_out: z
      .array(z.object({ reason: z.string(), lives: z.int() }))
      .meta({ description: 'lives that could not be used, by reason as a sentence' }),
    fits: z
      .array(lifeFit)
      .meta({ description: 'the lives that the inspection list reckons with, of the platforms chosen' }),
    choices: z
      .object({
        platforms: z.array(z.object({ id: z.string(), name: z.string() })),
        depots: z.array(z.object({ id: z.string(), name: z.string() })),
        suppliers: z.array(z.string()),
        modes: z.array(z.string()),
        first_day: z.iso.date().nullable(),
        last_day: z.iso.date().nullable(),
      })
      .meta({ description: 'what could be chosen' }),
  })
  .meta({ id: 'FleetLivesReply' });
export type FleetLivesReply = z.infer<typeof fleetLivesReply>;

/** The lives that the list reckons with, without the statistics: a small answer. */
export const lifeFits = z.object({ fits: z.array(lifeFit) }).meta({ id: 'LifeFits' });
export type LifeFits = z.infer<typeof lifeFits>;
