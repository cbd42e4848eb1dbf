import type { ListedBooking } from '#server/contract/bookings.ts';
import type { RankingRow } from '#server/contract/ranking.ts';
import { formatDay } from '#web/format/format-day.ts';

export interface BookingWords {
  /** 'Mon 30 Nov', 'put off', 'over: not closed' */
  first: string;
  /** 'bay 2', with the depot where it is another than the vehicle's own */
  second: string;
}

/** An open booking in two short lines. */
export function sayBooking(
  { state, day, bay, depot, past }: ListedBooking,
  home: string | null,
  depotName: (id: string) => string,
): BookingWords {
  const elsewhere = depot === home ? [] : [depotName(depot)];
  if (state === 'put_off' || day === null) return { first: 'put off', second: elsewhere.join('') };
  if (past) return { first: 'over: not closed', second: [formatDay(day), ...elsewhere].join(', ') };
  return {
    first: formatDay(day),
    second: [...(bay === null ? [] : [`bay ${bay}`]), ...elsewhere].join(', '),
  };
}

/** The same in one line: 'Mon 30 Nov, bay 2'. */
export function sayBookingInLine(...how: Parameters<typeof sayBooking>): string {
  const { first, second } = sayBooking(...how);
  return second === '' ? first : `${first}, ${second}`;
}

/** Where there is none: 'none', or 'inspected Sat 21 Nov'. */
export const sayNoBooking = ({ inspected_on }: Pick<RankingRow, 'inspected_on'>): string =>
  inspected_on === null ? 'none' : `inspected ${formatDay(inspected_on)}`;
