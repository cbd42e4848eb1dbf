import { z } from 'zod';
import { moment } from './readings.ts';

const nullableNumber = z.number().nullable();

/** Stands for the vehicles without a platform, where a path wants the id of one; no platform can be called so. */
export const NO_PLATFORM_ID = '-';

/** `learned`, or why not: no assessment yet, too few vehicles, or too few weeks of any. */
export const movementStates = ['learned', 'not_yet', 'too_few_vehicles', 'too_few_weeks'] as const;

export const fleetEvent = z.object({
  at: moment.meta({ description: 'to within about a week' }),
  size_rpm: z.number(),
  vehicles: z.int().meta({ description: 'that the size was measured on' }),
  sentence: z.string(),
});
export type FleetEvent = z.infer<typeof fleetEvent>;

export const movementWeek = z.object({
  week: z.iso.date().meta({ description: 'Monday of the week, UTC' }),
  movement_rpm: z.number().meta({ description: 'against the first weeks' }),
  error_rpm: nullableNumber.meta({
    description: 'standard error of the week, from how single weeks scatter about their neighbours',
  }),
  vehicles: z.int().meta({ description: 'that the figure rests on' }),
  carried: z.boolean().meta({ description: 'too few vehicles in this week: the figure of the week before' }),
});
export type MovementWeek = z.infer<typeof movementWeek>;

const perCondition = z.object({
  load_rpm_per_pct: nullableNumber.meta({ description: 'null where no feed has a load' }),
  fluid_rpm_per_c: nullableNumber.meta({ description: 'null where no feed has a fluid temperature' }),
  duty_rpm_per_pct: z.number(),
});

export const season = z
  .object({
    state: z.enum(['measured', 'not_seen', 'too_short']),
    amplitude_rpm: nullableNumber.meta({
      description: 'half of the way from low to high; null unless measured',
    }),
    error_rpm: nullableNumber.meta({ description: 'standard error of the amplitude; null where too short' }),
    highest_in: z.string().nullable().meta({ description: 'month in which slip is highest' }),
    sentence: z.string(),
  })
  .meta({ id: 'Season' });

const brief = {
  id: z.string().nullable().meta({ description: 'null for the vehicles without a platform' }),
  name: z.string(),
  limit_rpm: z.number(),
  vehicles: z.int().meta({ description: 'vehicles that belong to it now, retired ones aside' }),
  state: z.enum(movementStates),
  as_of: moment.nullable().meta({ description: 'when it was learned' }),
};

export const platformMovement = z
  .object({
    ...brief,
    learned_from: z.int().meta({ description: 'vehicles with readings when it was learned' }),
    needs_vehicles: z.int().meta({ description: 'vehicles below which no common movement can be told' }),
    sentence: z.string().meta({ description: 'what it means for the inspection list' }),
    weeks: z.array(movementWeek),
    events: z.array(fleetEvent).meta({ description: 'steps, in order of time' }),
    season,
    usual: z
      .object({
        baseline_rpm: z.number().meta({ description: 'healthy slip at the reference point' }),
        spread_rpm: z.number().meta({ description: 'standard deviation of it between vehicles' }),
      })
      .nullable(),
    effects: z
      .object({ healthy: perCondition, worn: perCondition })
      .nullable()
      .meta({ description: 'on slip: of a healthy clutch, and of one that has risen by 100 rpm' }),
    reference: z.object({ duty_pct: z.number(), load_pct: z.number(), fluid_c: z.number() }),
  })
  .meta({
    id: 'PlatformMovement',
    description: 'What all vehicles of a platform did together; it is taken out of each of them',
  });
export type PlatformMovement = z.infer<typeof platformMovement>;

export const platformSummary = z
  .object({
    ...brief,
    events: z.array(fleetEvent).meta({ description: 'the newest first' }),
    weeks: z
      .array(z.tuple([z.iso.date(), z.number()]))
      .meta({ description: 'Monday of the week, and movement against the first weeks, rpm' }),
  })
  .meta({ id: 'PlatformSummary' });
export type PlatformSummary = z.infer<typeof platformSummary>;
