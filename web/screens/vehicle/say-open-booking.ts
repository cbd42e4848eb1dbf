import type { ListedBooking } from '#server/contract/bookings.ts';
import { formatDay } from '#web/format/format-day.ts';

/** 'Fri 27 Nov at 13:00, bay 1, Ulmerholt' */
export function sayOpenBooking(
  { state, day, from, bay, depot, past }: ListedBooking,
  depotName: (id: string) => string,
): string {
  if (state === 'put_off' || day === null) return `put off: it waits for a day at ${depotName(depot)}`;
  if (past) return `of ${formatDay(day)}, over: nobody has said what became of it`;
  return `${formatDay(day)}${from === null ? '' : ` at ${from}`}, bay ${bay}, ${depotName(depot)}`;
}
