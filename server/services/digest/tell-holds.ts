import { listGradeChanges } from '#db/queries/digest/grade-changes.ts';
import type { SeenPart } from '#db/queries/digest/seen-part.ts';
import { listOpenBookings } from '#db/queries/digest/week-bookings.ts';
import type { UncoveredHold } from '#server/contract/bookings.ts';
import type { Digest } from '#server/contract/digest.ts';
import type { Reason } from '#server/engine/assessment/assessment-model.ts';
import { inOneLine } from '#server/services/bookings/booking-words.ts';
import { toListedBooking } from '#server/services/bookings/to-listed-booking.ts';
import { type CodeBook, readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { dayWords } from '#server/services/words/day-words.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { reasonWords } from '#server/services/words/reason-words.ts';
import type { DigestWeek } from './digest-week.ts';
import { findNewHolds, type NewHold } from './find-new-holds.ts';
import { placeWords, shortDayWords } from './place-words.ts';

type Told = Omit<Digest['newly_on_hold'][number], 'now'> & { key: number };

/** Vehicles that went on hold in the week, with what became of them in the bays. */
export async function tellNewHolds(
  { db, now }: Context,
  part: SeenPart,
  week: DigestWeek,
  units: Units,
): Promise<Told[]> {
  const holds = findNewHolds(await listGradeChanges(db, part, week));
  const keys = holds.map(({ key }) => key);
  const [open, book] = await Promise.all([
    keys.length === 0 ? [] : listOpenBookings(db, keys),
    readCodeBook(db),
  ]);
  const byVehicle = new Map(open.map((one) => [one.booking.vehicle, one]));
  return holds.map((hold) => {
    const found = byVehicle.get(hold.key);
    const place = found === undefined ? null : placeWords(found.booking, found.depotName, found.timeZone);
    return {
      key: hold.key,
      vehicle: hold.unit,
      depot: hold.depot,
      text: [beforeWords(hold), whyWords(hold, units, book), bookedWords(found !== undefined, place)]
        .filter((words) => words !== '')
        .join(' '),
      at: hold.at.toISOString(),
      before: hold.before,
      booking: found === undefined ? null : toListedBooking(found.booking, found.timeZone, now()),
    };
  });
}

function beforeWords({ at, before }: NewHold): string {
  const since = `On hold since ${shortDayWords(at)}`;
  return before === null ? `${since}, when it was first graded.` : `${since}, was ${before}.`;
}

const whyWords = ({ why }: NewHold, units: Units, book: CodeBook): string =>
  why === null ? '' : `${reasonWords(why as Reason, units, book)}.`;

function bookedWords(isOpen: boolean, place: string | null): string {
  if (place !== null) return `Booked for ${place}.`;
  return isOpen ? 'Its booking is put off.' : 'Not booked.';
}

/** A hold without a day, in words. */
export function uncoveredWords({ since, booking, reason, why_not: whyNot }: UncoveredHold): string {
  const held = since === null ? 'On hold' : `On hold since ${dayWords(Date.parse(since))}`;
  const why = reason === null || inOneLine(reason) === '' ? '' : `: ${inOneLine(reason)}`;
  if (booking === null)
    return why === '' ? `${held}, not booked.` : `${held}. Its booking was cancelled${why}.`;
  if (booking.state === 'put_off') return `${held}. Its booking is put off${why}.`;
  if (whyNot !== null) return `${held}. Its booking no longer fits: ${inOneLine(whyNot)}`;
  return booking.day === null
    ? `${held}.`
    : `${held}. Its booking of ${shortDayWords(booking.day)} is over and not closed.`;
}
