import { z } from 'zod';
import { listedBooking, uncoveredHold } from './bookings.ts';
import { day } from './calendar.ts';
import { depotId } from './fleet.ts';
import { distance, units } from './ranking.ts';
import { moment } from './readings.ts';
import { grades } from './words.ts';

export const digestQuery = z.object({
  depot: depotId.optional(),
  week: day.optional().meta({ description: 'any day of the week that it opens; this week where left out' }),
  units: units.optional(),
});
export type DigestQuery = z.output<typeof digestQuery>;

/** A vehicle, and what is to be said of it. */
const line = { vehicle: z.string(), depot: z.string().nullable(), text: z.string() };

const standsNow = z
  .object({ grade: z.enum(grades), rank: z.int(), km_to_limit: distance, missing: z.string().nullable() })
  .nullable()
  .meta({ description: 'where the vehicle stands in the list now; null where it is not in it' });
export type StandsNow = z.infer<typeof standsNow>;

export const digest = z
  .object({
    week: day.meta({ description: 'Monday of the week that it opens' }),
    from: moment.meta({ description: 'it tells what happened from here' }),
    to: moment.meta({ description: 'to here: now, or the beginning of a week that is past' }),
    current: z.boolean().meta({ description: 'of the week that runs' }),
    as_of: moment.nullable(),
    compared_with: day.nullable().meta({
      description: 'day of the standings that the list is compared with; null where there are none yet',
    }),
    horizon_km: z.number().meta({ description: 'of the chances' }),
    sentence: z.string().meta({ description: 'the week in one sentence' }),
    uncovered_holds: z
      .array(uncoveredHold.extend({ text: z.string(), now: standsNow }))
      .nullable()
      .meta({ description: 'null for a week that is past: it is known of now alone' }),
    newly_on_hold: z.array(
      z.object({
        ...line,
        at: moment,
        before: z.enum(grades).nullable(),
        booking: listedBooking.nullable().meta({ description: 'its open one' }),
        now: standsNow,
      }),
    ),
    got_worse: z
      .array(
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
          now: standsNow,
        }),
      )
      .meta({
        description:
          'a worse grade than a week before, or the same (book or watch) and a chance that rose by 0.1 or more; the gravest 15, without those newly on hold',
      }),
    got_worse_more: z.int().meta({ description: 'how many more there are' }),
    newly_booked: z.array(z.object({ ...line, booking: listedBooking, by: z.string(), at: moment })),
    inspected: z.array(z.object({ ...line, booking: listedBooking, by: z.string(), at: moment })),
    not_closed: z
      .array(z.object({ ...line, booking: listedBooking }))
      .nullable()
      .meta({
        description:
          'bookings that are over and of which nobody has said what became of them; null for a week that is past',
      }),
    gone_quiet: z.object({
      vehicles: z
        .array(z.object({ ...line, last_reading_at: moment }))
        .meta({ description: 'no reading for 7 days, but one in the 7 days before: each is told once' }),
      vehicles_longer: z.int().meta({ description: 'quiet for longer than that' }),
      gateways: z
        .array(z.object({ name: z.string(), text: z.string(), last_used_at: moment }))
        .nullable()
        .meta({
          description:
            'keys that deliver, unused for 3 days and used in the 14 before; null for one depot, and for people who work for some only: nobody knows where a key belongs',
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
    units: units.default('metric').meta({ description: 'of its sentences' }),
  })
  .meta({ id: 'DigestChoice' });
export type DigestChoice = z.output<typeof digestChoice>;

export const digestState = z
  .object({
    by_mail: z.boolean(),
    units,
    can_mail: z.boolean().meta({ description: 'the installation has a mail server' }),
    last_sent_at: moment.nullable(),
    problem: z.string().nullable().meta({ description: 'why the last one did not leave' }),
  })
  .meta({ id: 'DigestState' });
export type DigestState = z.infer<typeof digestState>;
