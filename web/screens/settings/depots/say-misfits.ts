import type { DepotPreview } from '#server/contract/settings.ts';

/** How many bookings a changed depot leaves without room. */
export function sayMisfits({ misfits, open }: DepotPreview): string {
  if (open === 0) return 'No booking lies ahead here.';
  if (misfits.length === 0)
    return open === 1 ? 'The one booking ahead still fits.' : `All ${open} bookings ahead still fit.`;
  if (open === 1) return 'The one booking ahead would no longer fit:';
  if (misfits.length === open)
    return open === 2
      ? 'Both bookings ahead would no longer fit:'
      : `None of the ${open} bookings ahead would still fit:`;
  return `${misfits.length} of ${open} bookings ahead would no longer fit:`;
}
