import ical, { ICalEventStatus } from 'ical-generator';
import type { BookingRow } from '#db/queries/list-bookings.ts';
import type { Reason } from '#server/engine/assessment/assessment-model.ts';
import type { CodeBook } from '#server/services/codes/code-book.ts';
import { reasonWords } from '#server/services/words/reason-words.ts';

/** How often calendars should look again, s. */
const REFRESH_S = 3600;

interface Surroundings {
  book: CodeBook;
  /** of the installation */
  calendarId: string;
  /** origin that people use; null where only this machine does */
  publicUrl: string | null;
}

/** Bookings of one depot as an iCalendar object (RFC 5545), in UTC: no calendar has to know the depot's time zone. */
export function writeCalendar(
  depot: { id: string; name: string },
  rows: readonly BookingRow[],
  { book, calendarId, publicUrl }: Surroundings,
): string {
  const calendar = ical({
    prodId: { company: 'Slipdrift', product: 'bookings', language: 'EN' },
    name: escapeText(`Inspections at ${depot.name}`),
    ttl: REFRESH_S,
  });
  for (const row of rows) {
    const { booking, unit } = row;
    // What a vehicle of another depot shows is that depot's: the address is made by people of this one.
    const grade = row.home === depot.id ? row.grade : null;
    const { startsAt, endsAt } = booking;
    if (startsAt === null || endsAt === null) continue;
    const address = publicUrl === null ? null : `${publicUrl}/vehicles/${encodeURIComponent(unit)}`;
    const description = describe(row.home === depot.id ? row : { ...row, firstReason: null }, book, address);
    calendar.createEvent({
      id: `booking-${booking.id}-${calendarId}`,
      sequence: booking.version,
      stamp: booking.changedAt,
      created: booking.createdAt,
      lastModified: booking.changedAt,
      start: startsAt,
      end: endsAt,
      status: ICalEventStatus.CONFIRMED,
      summary:
        booking.state === 'done'
          ? `Inspected ${unit}`
          : `Inspect ${unit}${grade === null ? '' : ` (${grade})`}`,
      location: `${depot.name}, bay ${booking.bay}`,
      ...(description === '' ? {} : { description }),
      ...(address === null ? {} : { url: address }),
    });
  }
  return withLastLineEnded(calendar.toString());
}

function describe({ booking, firstReason }: BookingRow, book: CodeBook, address: string | null): string {
  const outcome = booking.state === 'done' ? booking.reason : null;
  const reason =
    booking.state === 'done' || firstReason === null
      ? null
      : reasonWords(firstReason as Reason, 'metric', book);
  return [reason, booking.note, outcome, address].filter((part) => part !== null).join('\n');
}

/** The library writes the calendar's own name as it is; RFC 5545, 3.3.11 wants it escaped as any other text. */
const escapeText = (text: string): string => text.replace(/[\\;,]/g, '\\$&');

/** RFC 5545, 3.1: every line ends so; the library leaves the last one open. */
const withLastLineEnded = (text: string): string => `${text}\r\n`;
