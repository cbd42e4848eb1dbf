import type { UncoveredHold } from '#server/contract/bookings.ts';

/** What became of the booking of a vehicle on hold that has no day: '' where it never had one. */
export function sayHold({ booking, reason }: Pick<UncoveredHold, 'booking' | 'reason'>): string {
  if (booking?.past === true) return 'over, not closed';
  const said = reason === null || reason === '' ? '' : `: ${reason}`;
  if (booking?.state === 'put_off') return `put off${said}`;
  return said === '' ? '' : `cancelled${said}`;
}
