import type { BayPlan, Booking, PlannedBooking } from '#server/contract/bookings.ts';
import type { Grade } from '#server/contract/words.ts';
import type { Draft } from '#web/api/use-plan.ts';
import type { Taken } from './find-room.ts';

/** What lies in the grid, or waits for a place in it: a booking, or a proposal that nobody has accepted yet. */
export type Item = { kind: 'booking'; key: string; of: Booking } | { kind: 'draft'; key: string; of: Draft };

export const toBookingItem = (of: Booking): Item => ({ kind: 'booking', key: `b${of.id}`, of });
export const toDraftItem = (of: Draft): Item => ({ kind: 'draft', key: `p${of.vehicle}`, of });

export const gradeOf = ({ of }: Item): Grade => of.grade ?? 'unknown';

/** Over and without a word on what became of it. */
export const isPast = (item: Item): boolean => item.kind === 'booking' && item.of.past;
export const isDone = (item: Item): boolean => item.kind === 'booking' && item.of.state === 'done';

/** Why it cannot stay as it is; null where it can. */
export function sayMisfit(item: Item): string | null {
  if (item.kind === 'draft') return item.of.refused;
  const planned = item.of as Partial<PlannedBooking>;
  if (planned.fits !== false || item.of.past || item.of.state !== 'booked') return null;
  return planned.why_not ?? 'does not fit this day any more';
}

/** The times at which bays are taken, by bookings and by what is proposed. */
export function listTaken(bookings: readonly Booking[], drafts: readonly Draft[]): Taken[] {
  const items = [
    ...bookings.filter(({ state }) => state === 'booked').map(toBookingItem),
    ...drafts.map(toDraftItem),
  ];
  return items.flatMap(({ key, of: { depot, day, bay, from, to } }) =>
    day === null || bay === null || from === null || to === null ? [] : [{ key, depot, day, bay, from, to }],
  );
}

/** A booking of the plan by its number, wherever it lies. */
export const findBooking = (plan: BayPlan, id: number): Booking | undefined =>
  [...plan.bookings, ...plan.put_off, ...plan.past].find((one) => one.id === id);
