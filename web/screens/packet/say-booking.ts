import type { ListedBooking } from '#server/contract/bookings.ts';
import { formatDay } from '#web/format/format-day.ts';

/** 'Fri 27 Nov at 13:00, bay 1, Ulmerholt' */
export function sayBooking(
  { state, day, from, bay, depot, past }: ListedBooking,
  depotName: string | null,
): string {
  const place = depotName ?? depot;
  if (state === 'put_off' || day === null) return `put off: it waits for a day at ${place}`;
  if (past) return `${formatDay(day)}, over`;
  return `${formatDay(day)}${from === null ? '' : ` at ${from}`}, bay ${bay}, ${place}`;
}
