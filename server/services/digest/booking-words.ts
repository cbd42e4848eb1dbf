import type { bookings } from '#db/schema/planning.ts';
import { localOf } from '#server/services/calendar/local-time.ts';

type Row = typeof bookings.$inferSelect;

const day = new Intl.DateTimeFormat('en-GB', {
  weekday: 'short',
  day: 'numeric',
  month: 'short',
  timeZone: 'UTC',
});

/** 'Thu 5 Mar', of a calendar day or of a moment, UTC. */
export const shortDayWords = (at: string | Date): string => day.format(new Date(at)).replace(',', '');

/** 'Thu 5 Mar, 07:00, bay 2 at North yard', in the time of the depot; null where it has no day. */
export function placeWords(row: Row, depotName: string, timeZone: string): string | null {
  if (row.day === null || row.startsAt === null) return null;
  return `${shortDayWords(row.day)}, ${localOf(timeZone, row.startsAt).clock}, bay ${row.bay} at ${depotName}`;
}

/** What somebody wrote over several lines, as part of a sentence. */
export const oneLine = (text: string): string =>
  text
    .trim()
    .replace(/\s*\n\s*/g, ' ')
    .replace(/\.$/, '');
