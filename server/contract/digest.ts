import { z } from 'zod';
import { listedBooking, uncoveredHold } from './bookings.ts';
import { day } from './calendar.ts';
import { depotId } from './fleet.ts';
import { units } from './ranking.ts';
import { moment } from './readings.ts';
import { grades } from './words.ts';

export const digestQuery = z.object({
  depot: depotId.optional(),
  week: day.optional().meta({ description: 'any day of the week that it opens; this week where left out' }),
  units: units.optional(),
});
export type DigestQuery = z.output<typeof digestQuery>;

const line = { vehicle: z.string(), depot: z.string().nullable(), text: z.string() };

export const digest = z
  .object({
    week: day.meta({ description: 'Monday of the week that it opens' }),
    from: moment.meta({ description: 'it tells what happened from here' }),
    to: moment.meta({ description: 'to here' }),
    as_of: moment.nullable(),
    compared_with: day.nullable().meta({
      description: 'day of the standings that the list is compared with; null where there are none yet',
    }),
    sentence: z.string().meta({ description: 'the week in one sentence' }),
    uncovered_holds: z.array(uncoveredHold.extend({ text: z.string() })),
    newly_on_hold: z.array(
      z.object({
        ...line,
        at: moment,
        before: z.enum(grades).nullable(),
        booking: listedBooking.nullable(),
      }),
    ),
    got_worse: z.array(
      z.object({
        ...line,
        grade_before: z.enum(grades),
        grade: z.enum(grades),
        rank_before: z.int(),
        rank: z.int(),
        chance_before: z.number().nullable(),
        chance: z.number().nullable(),
        km_p50_before: z.number().nullable(),
        km_p50: z.number().nullable(),
      }),
    ),
    newly_booked: z.array(z.object({ ...line, booking: listedBooking, by: z.string(), at: moment })),
    inspected: z.array(z.object({ ...line, booking: listedBooking, by: z.string(), at: moment })),
    not_closed: z
      .array(z.object({ ...line, booking: listedBooking }))
      .meta({ description: 'bookings that are over and of which nobody has said what became of them' }),
    gone_quiet: z.object({
      vehicles: z.array(z.object({ ...line, last_reading_at: moment })),
      gateways: z.array(z.object({ name: z.string(), text: z.string(), last_used_at: moment })).meta({
        description: 'keys that delivered and no longer do; empty for people who work for some depots only',
      }),
    }),
    ahead: z
      .array(
        z.object({
          depot: z.string(),
          name: z.string(),
          bay_hours: z.number(),
          booked_hours: z.number(),
          bookings: z.int(),
        }),
      )
      .meta({ description: 'the bays of the week that it opens' }),
  })
  .meta({ id: 'Digest', description: 'What the planner should know at the beginning of a week' });
export type Digest = z.infer<typeof digest>;

export const digestChoice = z
  .object({
    by_mail: z.boolean().meta({ description: 'send me the digest every Monday' }),
  })
  .meta({ id: 'DigestChoice' });

export const digestState = z
  .object({
    by_mail: z.boolean(),
    can_mail: z.boolean().meta({ description: 'the installation has a mail server' }),
    last_sent_at: moment.nullable(),
    problem: z.string().nullable().meta({ description: 'why the last one did not leave' }),
  })
  .meta({ id: 'DigestState' });
export type DigestState = z.infer<typeof digestState>;
