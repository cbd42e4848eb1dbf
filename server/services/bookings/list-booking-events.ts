import { and, asc, eq, inArray } from 'drizzle-orm';
import { changes } from '#db/schema/access.ts';
import { depots } from '#db/schema/fleet.ts';
import type { Context } from '#server/services/context.ts';
import { inOneLine, sayDay } from './booking-words.ts';
import type { BookingContent } from './note-booking.ts';

const ACTIONS = ['booked', 'booking_moved', 'booking_put_off', 'booking_cancelled', 'booking_done'] as const;
type Action = (typeof ACTIONS)[number];

export interface BookingEvent {
  at: Date;
  kind: Action;
  text: string;
}

/** What became of the bookings of a vehicle, the first first, in words with who did it. */
export async function listBookingEvents({ db }: Pick<Context, 'db'>, unit: string): Promise<BookingEvent[]> {
  const rows = await db
    .select()
    .from(changes)
    .where(
      and(eq(changes.subject, 'vehicle'), eq(changes.subjectId, unit), inArray(changes.action, [...ACTIONS])),
    )
    .orderBy(asc(changes.id));
  if (rows.length === 0) return [];
  const named = await db.select({ id: depots.id, name: depots.name }).from(depots);
  const names = new Map(named.map(({ id, name }) => [id, name]));
  return rows.flatMap(({ at, action, actorName, before, after }) => {
    const kind = ACTIONS.find((one) => one === action);
    if (kind === undefined || after === null) return [];
    return [{ at, kind, text: sayBookingChange(kind, before ?? {}, after, { at, by: actorName, names }) }];
  });
}

type Content = Partial<BookingContent>;

interface Telling {
  at: Date;
  by: string;
  /** of depots, by their ids */
  names: ReadonlyMap<string, string>;
}

/** One change of a booking as a line of the vehicle's history. */
export function sayBookingChange(action: Action, before: Content, after: Content, telling: Telling): string {
  const { by } = telling;
  const why = after.reason == null ? '' : `: ${inOneLine(after.reason)}`;
  switch (action) {
    case 'booked':
      return after.day == null
        ? `Booking without a day at ${nameOf(after, telling)}, by ${by}${why}`
        : `Booked at ${placeOf(after, telling)}, by ${by}${after.note == null ? '' : `: ${inOneLine(after.note)}`}`;
    case 'booking_moved':
      return sayMove(before, after, telling, why);
    case 'booking_put_off':
      return `Booking of ${whenOf(before, telling)} at ${nameOf(before, telling)} put off by ${by}${why}`;
    case 'booking_cancelled':
      return before.day == null
        ? `Booking without a day cancelled by ${by}${why}`
        : `Booking of ${whenOf(before, telling)} at ${nameOf(before, telling)} cancelled by ${by}${why}`;
    case 'booking_done':
      return `Inspected at ${placeOf(after, telling)}; closed by ${by}${why}`;
  }
}

function sayMove(before: Content, after: Content, telling: Telling, why: string): string {
  const { by } = telling;
  if (before.day == null && after.day != null)
    return `Booking given a day: ${placeOf(after, telling)}, by ${by}${why}`;
  if (after.day == null) return sayWaiting(before, after, telling);
  const stays = (['depot', 'day', 'from', 'bay'] as const).every((field) => before[field] === after[field]);
  if (!stays) {
    const elsewhere = before.depot !== after.depot;
    const from = elsewhere ? placeOf(before, telling) : `${whenOf(before, telling)}, bay ${before.bay}`;
    const to = elsewhere ? placeOf(after, telling) : `${whenOf(after, telling)}, bay ${after.bay}`;
    return `Booking moved from ${from} to ${to}, by ${by}${why}`;
  }
  if (after.starts_at !== undefined)
    return `Booking of ${whenOf(after, telling)} kept at that time of day, by ${by}${why}`;
  if (after.hours !== undefined)
    return `Booking of ${whenOf(after, telling)} made ${after.hours} h long, by ${by}${why}`;
  return sayWords(after, by, why);
}

/** A change of what has no day and gets none. */
function sayWaiting(before: Content, after: Content, telling: Telling): string {
  const { by } = telling;
  // The reason why it waits stays beside each change.
  const why = after.reason == null || after.reason === before.reason ? '' : `: ${inOneLine(after.reason)}`;
  if (before.depot !== after.depot)
    return `Booking without a day moved from ${nameOf(before, telling)} to ${nameOf(after, telling)}, by ${by}${why}`;
  if (after.hours !== undefined) return `Booking without a day made ${after.hours} h long, by ${by}${why}`;
  return sayWords(after, by, why);
}

function sayWords(after: Content, by: string, why: string): string {
  if (after.note !== undefined)
    return after.note === null
      ? `Note of the booking removed by ${by}`
      : `Note of the booking changed by ${by}: ${inOneLine(after.note)}`;
  return `Reason of the booking changed by ${by}${why}`;
}

/** 'Skarrowick, bay 2, Mon 30 Nov 07:00' */
const placeOf = (content: Content, telling: Telling): string =>
  `${nameOf(content, telling)}, bay ${content.bay}, ${whenOf(content, telling)}`;

const nameOf = ({ depot }: Content, { names }: Telling): string =>
  names.get(depot ?? '') ?? depot ?? 'a depot';

const whenOf = ({ day, from }: Content, { at }: Telling): string =>
  day == null ? 'no day' : `${sayDay(day, at.toISOString())} ${from}`;
