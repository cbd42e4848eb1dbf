import type { UncoveredHold } from '#server/contract/bookings.ts';

/** What became of the booking of a vehicle on hold that has no day: '' where it never had one. */
export function sayHold({
  booking,
  reason,
  why_not: whyNot,
}: Pick<UncoveredHold, 'booking' | 'reason' | 'why_not'>): string {
  if (booking?.past === true) return 'over, not closed';
  if (whyNot !== null) return 'no longer fits';
  const said = reason === null || reason === '' ? '' : `: ${reason}`;
  if (booking?.state === 'put_off') return `put off${said}`;
  return said === '' ? '' : `cancelled${said}`;
}
