import { z } from 'zod';
import { clock, day } from './calendar.ts';
import { depotId } from './fleet.ts';
import { units } from './ranking.ts';
import { moment, vehicleUnit } from './readings.ts';
import { grades, leftOutReasons } from './words.ts';

const money = z.number().meta({ description: "in the fleet's own currency" });
const chance = z.number().min(0).max(1);

export const planRequest = z
  .strictObject({
    depots: z.array(depotId).min(1).max(500).optional().meta({ description: 'all of them where left out' }),
    vehicles: z
      .array(vehicleUnit)
      .min(1)
      .max(10_000)
      .optional()
      .meta({ description: 'only these; all where left out' }),
    from: day.optional().meta({ description: 'first day; today at each depot where left out' }),
    days: z.int().min(1).max(60).default(14).meta({ description: 'calendar days that are planned' }),
    units: units.default('metric'),
  })
  .meta({ id: 'PlanRequest' });
export type PlanRequest = z.output<typeof planRequest>;

export const planAssignment = z.object({
  vehicle: z.string(),
  grade: z.enum(grades),
  platform: z.string().nullable(),
  depot: z.string(),
  day,
  bay: z.int(),
  from: clock,
  to: clock,
  hours: z.number(),
  chance_before: chance.meta({ description: 'of failing on the road before this day, as it is driven now' }),
  chance_by_end: chance.meta({ description: 'of failing on the road by counted_to, if nobody looks' }),
  risk: money.meta({ description: 'expected cost on the road by counted_to, if nobody looks' }),
  risk_before: money.meta({ description: 'of it, what falls before this day' }),
  inspection_cost: money.meta({ description: 'with the lost day' }),
  cost_avoided: money.meta({
    description: 'expected, by inspecting on this day: risk less risk_before less inspection_cost',
  }),
  put_off: z
    .object({ id: z.int(), version: z.int() })
    .nullable()
    .meta({ description: 'its booking that waits for a day: that one is moved here, not another made' }),
  why: z.string().meta({ description: 'the first reason of the list, in words' }),
});
export type PlanAssignment = z.infer<typeof planAssignment>;

export const planLeftOut = z.object({
  vehicle: z.string(),
  grade: z.enum(grades),
  depot: z.string().nullable(),
  reason: z.enum(leftOutReasons),
  words: z.string().meta({ description: 'the reason, as a sentence' }),
  chance_by_end: chance.meta({ description: 'of failing on the road by counted_to' }),
  risk: money.meta({ description: 'expected cost on the road by counted_to' }),
});
export type PlanLeftOut = z.infer<typeof planLeftOut>;

export const planDepot = z.object({
  depot: z.string(),
  name: z.string(),
  bay_hours: z.number(),
  booked_hours: z.number().meta({ description: 'already booked' }),
  proposed_hours: z.number(),
  optimal: z.boolean().meta({ description: 'proved to be the best' }),
  gap: z.number().nullable().meta({
    description: 'at most this share of the cost avoided is missing; 0 where proved, null where not known',
  }),
  extra_bay_day: z
    .object({
      day: day.nullable().meta({ description: 'on which it is worth most; null where it is worth nothing' }),
      worth: money.meta({ description: 'expected cost that one more bay on that day would avoid' }),
      holds: z.int().meta({ description: 'more vehicles on hold that would get a day' }),
    })
    .nullable()
    .meta({ description: 'null where it could not be computed in time' }),
});
export type PlanDepot = z.infer<typeof planDepot>;

export const plan = z
  .object({
    as_of: moment.nullable().meta({ description: 'of the newest assessment' }),
    from: day,
    to: day,
    counted_to: day.meta({
      description:
        'last day for which risk is counted: as many days after the plan as it has, two weeks at most, for which a vehicle without a day would wait',
    }),
    seconds: z.number().meta({ description: 'that it took' }),
    optimal: z.boolean(),
    gap: z.number().nullable(),
    warnings: z
      .array(z.string())
      .meta({ description: 'what must be read first, such as holds without a day' }),
    uncovered_holds: z
      .array(z.string())
      .meta({ description: 'vehicles graded hold that get no day and have not just been inspected' }),
    assignments: z.array(planAssignment),
    left_out: z
      .array(planLeftOut)
      .meta({ description: 'those whose grade or risk asks for a day and who get none, the dearest first' }),
    depots: z.array(planDepot),
    already_booked: z
      .object({ vehicles: z.array(z.string()), risk: money })
      .meta({ description: 'vehicles that have a day ahead of them, and their risk until that day' }),
    risk_without: money.meta({
      description:
        'expected cost on the road by counted_to without the proposed inspections: of those assigned, left out and already booked',
    }),
    risk_with: money.meta({ description: 'the same with them' }),
    inspection_cost: money.meta({ description: 'of the proposed inspections, lost days included' }),
  })
  .meta({ id: 'Plan', description: 'A proposal; nothing is booked until it is accepted' });
export type Plan = z.infer<typeof plan>;
