import { z } from 'zod';
import { clock, day } from './calendar.ts';
import { depotId } from './fleet.ts';
import { moment, plainLines, vehicleUnit } from './readings.ts';
import { bookingStates, grades } from './words.ts';

const bay = z.int().min(1).max(500).meta({ description: 'number of the bay within the depot, from 1' });
const bookingHours = z
  .number()
  .min(0.25)
  .max(24)
  .multipleOf(0.25)
  .meta({ description: 'how long the bay is taken, h, in quarters' });
const note = plainLines.max(500).meta({ description: 'for the shop' });
const reason = plainLines.pipe(z.string().min(3, { error: 'must say why, in a few words' }).max(500));
const version = z.int().min(1).meta({ description: 'the version that was seen' });
const leavesHold = z.boolean().default(false).meta({
  description:
    'a vehicle graded hold is left without a day only where this is true: it must not be dispatched before inspection',
});

/** What the list and the vehicle's screen show of an open booking. */
export const listedBooking = z
  .object({
    id: z.int(),
    state: z.enum(bookingStates),
    depot: z.string(),
    bay: bay.nullable(),
    day: day.nullable().meta({ description: 'null while it is put off' }),
    from: clock.nullable().meta({ description: 'in the time of the depot' }),
    past: z.boolean().meta({ description: 'its time is over and nobody has said what became of it' }),
  })
  .meta({ id: 'ListedBooking' });
export type ListedBooking = z.infer<typeof listedBooking>;

export const booking = z
  .object({
    ...listedBooking.shape,
    vehicle: z.string(),
    platform: z.string().nullable(),
    grade: z.enum(grades).nullable().meta({ description: 'of the vehicle, now' }),
    to: clock.nullable(),
    starts_at: moment.nullable(),
    ends_at: moment.nullable(),
    hours: z.number().nullable().meta({
      description: 'also while it is put off; null where nobody has said, so as its platform takes',
    }),
    note: z.string().nullable().meta({ description: 'for the shop' }),
    reason: z
      .string()
      .nullable()
      .meta({ description: 'why it was put off, moved or cancelled, or what came of it' }),
    version: z.int(),
    created_at: moment,
    created_by: z.string(),
    changed_at: moment,
    changed_by: z.string(),
  })
  .meta({ id: 'Booking' });
export type Booking = z.infer<typeof booking>;

export const bookingRequest = z
  .object({
    vehicle: vehicleUnit,
    depot: depotId.optional().meta({ description: "the vehicle's own where left out" }),
    day: day.optional().meta({ description: 'left out where the booking is put off from the start' }),
    bay: bay.optional().meta({ description: 'the first that is free where left out' }),
    from: clock.optional().meta({ description: 'the first time that is free where left out' }),
    hours: bookingHours.optional().meta({ description: "those of the vehicle's platform where left out" }),
    note: note.optional(),
    reason: reason.optional().meta({ description: 'why it waits for a day; needed where day is left out' }),
  })
  .superRefine(({ day: named, ...place }, context) => {
    if (named !== undefined) return;
    for (const field of ['bay', 'from'] as const)
      if (place[field] !== undefined)
        context.addIssue({
          code: 'custom',
          path: [field],
          message: 'is part of a day: name the day too, or leave it out',
        });
  })
  .meta({ id: 'BookingRequest' });
export type BookingRequest = z.output<typeof bookingRequest>;

export const bookingsReply = z
  .object({
    booked: z.array(booking),
    refused: z.array(
      z.object({
        line: z.int().meta({ description: 'number of the element, from 1' }),
        vehicle: z.string(),
        field: z.string(),
        message: z.string(),
      }),
    ),
  })
  .meta({
    id: 'BookingsReply',
    description:
      'What was booked, and what could not be: each by itself, so that one does not stop the others',
  });
export type BookingsReply = z.infer<typeof bookingsReply>;

/**
 * What is named is had, or the move is refused. What is left out stays where it is free, the time before the bay, and is
 * looked for anew where it is not.
 */
export const bookingMove = z
  .strictObject({
    version,
    depot: depotId.optional(),
    day: day.optional().meta({ description: 'needed for a bay and a time where the booking is put off' }),
    bay: bay.optional(),
    from: clock.optional(),
    hours: bookingHours.optional(),
    note: note.nullable().optional(),
    reason: reason.optional(),
  })
  .meta({ id: 'BookingMove' });
export type BookingMove = z.output<typeof bookingMove>;

export const bookingPutOff = z
  .strictObject({ version, reason, leaves_hold: leavesHold })
  .meta({ id: 'BookingPutOff' });
export const bookingCancel = z
  .strictObject({ version, reason, leaves_hold: leavesHold })
  .meta({ id: 'BookingCancel' });
export const bookingDone = z
  .strictObject({ version, reason: reason.optional().meta({ description: 'what came of it' }) })
  .meta({ id: 'BookingDone' });

const span = {
  depot: depotId.optional(),
  from: day.optional().meta({ description: 'first day; today where left out' }),
  to: day.optional().meta({ description: 'last day' }),
};

export const bookingsQuery = z.object({
  ...span,
  from: day.optional().meta({
    description: 'first day; today at each depot where left out, or the first ever where a vehicle is named',
  }),
  vehicle: vehicleUnit.optional(),
  state: z.enum(bookingStates).optional(),
});
export type BookingsQuery = z.output<typeof bookingsQuery>;

export const bookingList = z.array(booking);

export const bayPlanQuery = z.object({
  ...span,
  days: z.coerce
    .number()
    .int()
    .min(1)
    .max(92)
    .optional()
    .meta({ description: 'instead of to; 14 where left out' }),
});
export type BayPlanQuery = z.output<typeof bayPlanQuery>;

export const depotDay = z.object({
  day,
  bays: z.int().meta({ description: '0 where nobody works' }),
  hours: z.object({ from: clock, to: clock }).nullable(),
  note: z.string().meta({ description: 'of a special day' }),
  bay_hours: z.number().meta({ description: 'bays times hours' }),
  booked_hours: z.number(),
});
export type DepotDay = z.infer<typeof depotDay>;

/** A booking as the bay plan shows it: calendars change after a day was booked. */
export const plannedBooking = z
  .object({
    ...booking.shape,
    fits: z.boolean().meta({
      description: 'false where bays, hours or days have changed since, so that it cannot be kept as it is',
    }),
    why_not: z.string().nullable().meta({ description: 'why it does not fit, as a sentence' }),
  })
  .meta({ id: 'PlannedBooking' });
export type PlannedBooking = z.infer<typeof plannedBooking>;

/** A vehicle graded hold that has no day ahead of it, and that nobody has inspected since it was held. */
export const uncoveredHold = z.object({
  vehicle: z.string(),
  depot: z.string().nullable(),
  since: moment.nullable().meta({ description: 'when it was graded hold' }),
  booking: listedBooking.nullable().meta({ description: 'put off, or past and not closed' }),
  reason: z.string().nullable().meta({ description: 'what the planner said when it was left without a day' }),
  why_not: z
    .string()
    .nullable()
    .meta({ description: 'why its booking ahead no longer fits the calendar of its depot or its own days' }),
});
export type UncoveredHold = z.infer<typeof uncoveredHold>;

export const bayPlan = z
  .object({
    from: day,
    to: day,
    now: moment,
    depots: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        time_zone: z.string(),
        today: day,
        bays: z.int(),
        days: z.array(depotDay),
      }),
    ),
    bookings: z
      .array(plannedBooking)
      .meta({ description: 'at these depots on these days, cancelled ones left out' }),
    put_off: bookingList.meta({ description: 'waiting for a day' }),
    past: bookingList.meta({ description: 'over, and nobody has said what became of them' }),
    uncovered_holds: z.array(uncoveredHold),
  })
  .meta({ id: 'BayPlan' });
export type BayPlan = z.infer<typeof bayPlan>;

export const depotFeed = z
  .object({
    depot: z.string(),
    made_at: moment.nullable().meta({ description: 'null where the depot has no address' }),
    made_by: z.string().nullable(),
    used_at: moment.nullable(),
  })
  .meta({
    id: 'DepotFeed',
    description: 'the secret address at which calendars fetch the bookings of a depot',
  });
export type DepotFeed = z.infer<typeof depotFeed>;

export const newDepotFeed = z
  .object({ address: z.string().meta({ description: 'shown this once; whoever has it reads the bookings' }) })
  .meta({ id: 'NewDepotFeed' });
export type NewDepotFeed = z.infer<typeof newDepotFeed>;
