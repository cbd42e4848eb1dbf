import type { VehicleDetail } from '#server/contract/vehicle.ts';

/** What a vehicle lacks that is known from its readings alone, and what that costs; null where it lacks nothing. */
export function sayUnplaced({ depot, platform }: Pick<VehicleDetail, 'depot' | 'platform'>): string | null {
  const needs = {
    platform: 'a platform, so that its own limit and costs count',
    depot: 'a depot, so that it can be booked',
  };
  if (depot === null && platform === null)
    return `Known from its readings alone. It needs ${needs.platform}, and ${needs.depot}.`;
  if (platform === null) return `It needs ${needs.platform}.`;
  return depot === null ? `It needs ${needs.depot}.` : null;
}
