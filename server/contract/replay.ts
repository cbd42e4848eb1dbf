import { z } from 'zod';
import { thresholds } from './settings.ts';
import { grades } from './words.ts';

const MOST_DAYS = 731;
const day = z.iso.date();
const count = z.int();
const money = z.number().meta({ description: "in the fleet's own currency" });
const km = z.number().meta({ description: 'km' });

/** Rules that a planner could follow instead, on mean slip of usable readings at 70 % command or more. */
export const plainRules = ['slip_level', 'weekly_rise'] as const;
export type PlainRule = (typeof plainRules)[number];

export const replayStates = ['waiting', 'running', 'done', 'cancelled', 'failed'] as const;
export type ReplayState = (typeof replayStates)[number];

export const replayRequest = z
  .strictObject({
    from: day.meta({ description: 'first day that is looked at, UTC' }),
    to: day.meta({ description: 'last day, included' }),
    platforms: z.array(z.string().max(64)).max(50).default([]).meta({ description: 'none: all' }),
    depots: z.array(z.string().max(64)).max(50).default([]).meta({ description: 'none: all' }),
    horizon_km: z.number().min(500).max(100_000).default(5_000),
    thresholds: thresholds.optional().meta({ description: 'left out: those in use' }),
    limits_rpm: z
      .record(z.string().max(64), z.number().min(10).max(2_000))
      .default({})
      .meta({ description: 'other limits to try, by platform' }),
    rules: z
      .strictObject({
        slip_level_pct: z
          .number()
          .min(1)
          .max(500)
          .nullable()
          .default(null)
          .meta({ description: 'ask for an inspection from this share of the limit, %' }),
        weekly_rise_rpm: z.number().min(0.1).max(1_000).nullable().default(null).meta({
          description: 'ask for one where the mean of 7 days lies so much above that of the 7 days before',
        }),
      })
      .default({ slip_level_pct: null, weekly_rise_rpm: null })
      .meta({ description: 'null: set so that the rule asks for as many inspections as the list did' }),
    note: z.string().trim().max(200).default('').meta({ description: 'what this one was for' }),
  })
  .superRefine(({ from, to }, context) => {
    const days = (Date.parse(to) - Date.parse(from)) / 86_400_000 + 1;
    if (days < 1) context.addIssue({ code: 'custom', path: ['to'], message: `is before from, ${from}` });
    else if (days > MOST_DAYS)
      context.addIssue({
        code: 'custom',
        path: ['to'],
        message: `makes ${days} days; at most ${MOST_DAYS} can be run again at once`,
      });
  })
  .meta({ id: 'ReplayRequest' });
export type ReplayRequest = z.output<typeof replayRequest>;

const spread = z
  .object({ p10: z.number(), p50: z.number(), p90: z.number() })
  .nullable()
  .meta({ description: 'null where nothing was found' });

/** How one way of asking for inspections would have done. */
export const ruleScore = z.object({
  rule: z.enum(['list', ...plainRules]),
  threshold: z.number().nullable().meta({ description: '% of the limit, or rpm a week; null for the list' }),
  matched: z
    .boolean()
    .meta({ description: 'the threshold was set to ask for as many inspections as the list' }),
  asked: count.meta({
    description:
      'inspections asked for: times that a vehicle came onto hold or book; one that still stands after the horizon is driven, or after a shop found no fault, is another',
  }),
  found: count.meta({
    description: 'failures that were asked for before, and since a shop last found no fault',
  }),
  missed: count,
  right: count.meta({
    description: 'asked for, and a failure came of it, in the period or after, or had come before',
  }),
  early: count.meta({
    description:
      'asked for over a horizon before anything came, of a clutch that did slip: it failed later, or its slip has since risen by a quarter of the way to the limit',
  }),
  needless: count.meta({
    description: 'asked for, and nothing came of it nor has slip risen, or the shop found nothing',
  }),
  undecided: count.meta({ description: 'asked for, and not driven far enough since to tell' }),
  notice_km: spread.meta({ description: 'up to the horizon; null where nothing was found' }),
  notice_days: spread,
  saved: money.meta({ description: 'avoided less spent' }),
  avoided: money.meta({ description: 'road failure less planned repair, for each one found' }),
  spent: money.meta({ description: 'inspection and day off the road, for each one asked for' }),
});
export type RuleScore = z.infer<typeof ruleScore>;

/** Something that the list should have seen coming. */
export const replayFailure = z.object({
  vehicle: z.string(),
  platform: z.string().nullable(),
  depot: z.string().nullable(),
  what: z.enum(['failed', 'reached_limit', 'confirmed']).meta({
    description: 'a life ended as failed; slip reached the limit; or the shop found the fault before either',
  }),
  mode: z.string().nullable(),
  day,
  odometer_km: km,
  first_seen_km: km.meta({
    description: 'between the first reading of this life and here; little of it leaves no time for notice',
  }),
  list: z
    .object({ day, grade: z.enum(grades), notice_km: km, notice_days: z.number() })
    .nullable()
    .meta({
      description: 'from when the list asked for it, the horizon before at the most; null where it did not',
    }),
  slip_level: z.object({ day, notice_km: km, notice_days: z.number() }).nullable(),
  weekly_rise: z.object({ day, notice_km: km, notice_days: z.number() }).nullable(),
});
export type ReplayFailure = z.infer<typeof replayFailure>;

export const replayNeedless = z.object({
  vehicle: z.string(),
  platform: z.string().nullable(),
  depot: z.string().nullable(),
  from: day,
  to: day
    .nullable()
    .meta({ description: 'when the list let it go again, or asked anew; null where it did neither' }),
  grade: z.enum(grades).meta({ description: 'the gravest of that time' }),
  odometer_km: km,
  driven_km: km.meta({ description: 'since, in the same life' }),
  why: z.enum(['no_fault_found', 'nothing_came', 'early']),
});
export type ReplayNeedless = z.infer<typeof replayNeedless>;

/** Stated chances against what came, of looks a week apart. */
export const calibrationBin = z.object({
  from: z.number(),
  to: z.number(),
  n: count.meta({ description: 'looks; those of one vehicle go together' }),
  vehicles: count,
  stated: z.number().meta({ description: 'mean of the chances stated' }),
  seen: z.number().nullable().meta({
    description: 'share that failed within the horizon (Kaplan-Meier); null where too few were followed',
  }),
  low: z.number().nullable(),
  high: z.number().nullable(),
});
export type CalibrationBin = z.infer<typeof calibrationBin>;

export const replayWeek = z.object({
  day: day.meta({ description: 'last day of the week' }),
  vehicles: count,
  hold: count,
  book: count,
  failures: count.meta({ description: 'that came in this week' }),
});

export const replayResult = z.object({
  from: day,
  to: day,
  days: count,
  vehicles: count.meta({ description: 'with readings in the period' }),
  horizon_km: z.number(),
  failures: count,
  scores: z.array(ruleScore).meta({ description: 'the list first' }),
  came: z.array(replayFailure),
  needless: z.array(replayNeedless).meta({ description: 'of the list' }),
  calibration: z.array(calibrationBin).meta({
    description: 'of the limit or a failure: a fault that a shop found before ends the following',
  }),
  weeks: z.array(replayWeek),
  known: z.object({
    late: count.meta({
      description: 'readings that arrived over a day after their moment: counted from when they arrived',
    }),
    loaded: count.meta({
      description: 'readings of history that was loaded later: counted from their own moment',
    }),
    learned_every_days: z.number(),
  }),
  notes: z.array(z.string()).meta({ description: 'what a reader must know of this replay, as sentences' }),
});
export type ReplayResult = z.infer<typeof replayResult>;

export const replay = z
  .object({
    id: z.int(),
    state: z.enum(replayStates),
    asked_at: z.iso.datetime(),
    asked_by: z.string(),
    ended_at: z.iso.datetime().nullable(),
    seconds: z.number().nullable().meta({ description: 'from beginning to end' }),
    progress: z.object({ done: count, of: count }).meta({ description: 'vehicle days' }),
    request: replayRequest,
    result: replayResult.nullable(),
    error: z.string().nullable(),
  })
  .meta({ id: 'Replay' });
export type Replay = z.infer<typeof replay>;

export const replayLine = replay
  .omit({ result: true })
  .extend({ score: ruleScore.nullable().meta({ description: 'of the list; null while it is not done' }) })
  .meta({ id: 'ReplayLine' });
export type ReplayLine = z.infer<typeof replayLine>;

export const replayList = z.object({ replays: z.array(replayLine) }).meta({ id: 'ReplayList' });
export type ReplayList = z.infer<typeof replayList>;

export const replayPostQuery = z.object({
  wait: z
    .enum(['0', '1'])
    .default('1')
    .meta({ description: '`0` answers 202 at once; ask for it under its id' }),
});
