import type { bookings } from '#db/schema/planning.ts';
import type { BookingState, ChangeAction } from '#server/contract/words.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { NotedChange } from '#server/services/changes/note-changes.ts';
import { hoursOf } from './to-booking.ts';

type Row = typeof bookings.$inferSelect;

/** What the list of changes keeps of a booking. */
export interface BookingContent extends Record<string, unknown> {
  booking: number;
  depot: string;
  bay: number | null;
  day: string | null;
  from: string | null;
  hours: number | null;
  state: BookingState;
  note: string | null;
  reason: string | null;
  /** only where the moment changed and the time of day did not */
  starts_at?: string;
}

/** Which booking it was, and where, stand beside every change of it: the history of the vehicle is told from these. */
const ALWAYS = ['booking', 'depot', 'bay', 'day', 'from', 'reason'] as const;

/** A row with the time zone of its depot. */
export interface Zoned {
  row: Row;
  timeZone: string;
}

export const noteBooking = (
  action: ChangeAction,
  unit: string,
  before: Zoned | null,
  after: Zoned,
): NotedChange => ({
  action,
  subject: 'vehicle',
  subjectId: unit,
  before: before === null ? null : toContent(before),
  after: toContent(after),
  always: ALWAYS,
});

const toContent = ({ row, timeZone }: Zoned): BookingContent => ({
  booking: row.id,
  depot: row.depot,
  bay: row.bay,
  day: row.day,
  from: row.startsAt === null ? null : localOf(timeZone, row.startsAt).clock,
  hours: hoursOf(row),
  state: row.state,
  note: row.note,
  reason: row.reason,
});
