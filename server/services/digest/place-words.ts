import type { bookings } from '#db/schema/planning.ts';
import { sayDay } from '#server/services/bookings/booking-words.ts';
import { localOf } from '#server/services/calendar/local-time.ts';

type Row = typeof bookings.$inferSelect;

/** 'Thu 5 Mar', of a calendar day or of a moment, UTC. */
export function shortDayWords(at: string | Date): string {
  const day = typeof at === 'string' ? at : at.toISOString().slice(0, 10);
  return sayDay(day, day);
}

/** 'Thu 5 Mar, 07:00, bay 2 at North yard', in the time of the depot; null where it has no day. */
export function placeWords(row: Row, depotName: string, timeZone: string): string | null {
  if (row.day === null || row.startsAt === null) return null;
  return `${shortDayWords(row.day)}, ${localOf(timeZone, row.startsAt).clock}, bay ${row.bay} at ${depotName}`;
}
