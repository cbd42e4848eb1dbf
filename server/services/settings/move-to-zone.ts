import type { bookings } from '#db/schema/planning.ts';
import { sayDay } from '#server/services/bookings/booking-words.ts';
import type { Span } from '#server/services/bookings/object-to-time.ts';
import { localOf, momentOf } from '#server/services/calendar/local-time.ts';
import { findMeetings, type InBay } from './find-meetings.ts';

type Booked = Pick<typeof bookings.$inferSelect, 'day' | 'startsAt' | 'endsAt'>;

/** When a booking is that keeps its day and its time of day in another zone; null where it has none. */
export function moveToZone({ day, startsAt, endsAt }: Booked, from: string, to: string): Span | null {
  if (day === null || startsAt === null || endsAt === null) return null;
  const starts = momentOf(to, day, localOf(from, startsAt).clock);
  return { startsAt: starts, endsAt: new Date(starts.getTime() + endsAt.getTime() - startsAt.getTime()) };
}

export interface Met extends InBay {
  id: number;
  unit: string;
  day: string;
}

/**
 * Bookings that would be in one bay at once in another zone, as a pair is where one of them stood in an hour that the
 * clocks leave out there: each with why, as a sentence.
 */
export function listMet(moved: readonly Met[], timeZone: string): { met: Met; why: string }[] {
  const times = ({ startsAt, endsAt }: Met) =>
    [startsAt, endsAt].map((at) => localOf(timeZone, at).clock).join(' to ');
  return findMeetings(moved).flatMap((pair) =>
    [pair, pair.toReversed()].flatMap(([met, other]) =>
      met === undefined || other === undefined
        ? []
        : [
            {
              met,
              why: `In ${timeZone} ${times(met)} on ${sayDay(met.day, '')} meets ${other.unit}, which has bay ${met.bay} from ${times(other)}.`,
            },
          ],
    ),
  );
}
