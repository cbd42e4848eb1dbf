import type { findOpenBooking } from '#db/queries/lock-booking.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import { inOneLine, sayDay } from './booking-words.ts';
import { collides, type Objection } from './objection.ts';

type Open = NonNullable<Awaited<ReturnType<typeof findOpenBooking>>>;

/** Why a vehicle cannot be booked that has an open booking. */
export function sayOpenBooking(unit: string, { row, depotName, timeZone }: Open, now: Date): Objection {
  const { day, bay, startsAt, endsAt, createdBy, changedBy, reason } = row;
  if (day === null || startsAt === null || endsAt === null)
    return collides(
      'vehicle',
      `${unit} has a booking that ${changedBy} put off${reason === null ? '' : ` (${inOneLine(reason)})`}. Give that one a day, or cancel it.`,
    );
  const today = localOf(timeZone, now).day;
  const when = `${sayDay(day, today)} ${localOf(timeZone, startsAt).clock}, at ${depotName}, bay ${bay}, by ${createdBy}`;
  return collides(
    'vehicle',
    endsAt <= now
      ? `${unit} was booked for ${when}, and nobody has said what became of it. First close that booking as done or cancelled, or move it.`
      : `${unit} is booked already: ${when}. Move that booking instead.`,
  );
}
