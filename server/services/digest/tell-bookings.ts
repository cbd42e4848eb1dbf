import type { SeenPart } from '#db/queries/digest/seen-part.ts';
import {
  listInspections,
  listNewBookings,
  listPastBookings,
  type WeekBooking,
} from '#db/queries/digest/week-bookings.ts';
import type { Digest } from '#server/contract/digest.ts';
import { inOneLine } from '#server/services/bookings/booking-words.ts';
import { toListedBooking } from '#server/services/bookings/to-listed-booking.ts';
import type { Context } from '#server/services/context.ts';
import type { DigestWeek } from './digest-week.ts';
import { placeWords, shortDayWords } from './place-words.ts';

type Told = Pick<Digest, 'newly_booked' | 'inspected' | 'not_closed'>;

/** What was booked and inspected in the week; and what is over and not closed, which is known of now alone. */
export async function tellBookings({ db, now }: Context, part: SeenPart, week: DigestWeek): Promise<Told> {
  const [made, done, past] = await Promise.all([
    listNewBookings(db, part, week),
    listInspections(db, part, week),
    week.current ? listPastBookings(db, part, week.to) : null,
  ]);
  const at = now();
  return {
    newly_booked: made.map((row) => ({
      ...toLine(row, at, newWords(row)),
      by: row.booking.createdBy,
      at: row.booking.createdAt.toISOString(),
    })),
    inspected: done.map((row) => ({
      ...toLine(row, at, doneWords(row)),
      by: row.booking.changedBy,
      at: row.booking.changedAt.toISOString(),
    })),
    not_closed: past?.map((row) => toLine(row, at, `Was booked for ${placeOf(row)}.`)) ?? null,
  };
}

const toLine = ({ unit, home, booking, timeZone }: WeekBooking, at: Date, text: string) => ({
  vehicle: unit,
  depot: home,
  text,
  booking: toListedBooking(booking, timeZone, at),
});

const placeOf = ({ booking, depotName, timeZone }: WeekBooking): string | null =>
  placeWords(booking, depotName, timeZone);

function newWords(row: WeekBooking): string {
  const since = { booked: '', put_off: '', done: '; inspected since', cancelled: '; cancelled since' };
  const place = placeOf(row) ?? `Waits for a day at ${row.depotName}`;
  return `${place}, by ${inOneLine(row.booking.createdBy)}${since[row.booking.state]}.`;
}

function doneWords({ booking, depotName }: WeekBooking): string {
  const said =
    booking.reason === null || inOneLine(booking.reason) === '' ? '' : `: ${inOneLine(booking.reason)}`;
  const day = booking.day ?? booking.changedAt;
  return `${shortDayWords(day)} at ${depotName}, closed by ${inOneLine(booking.changedBy)}${said}.`;
}
