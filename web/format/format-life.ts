import { formatKm, formatKmNumber, formatKmRange } from './format-km.ts';
import type { Units } from './units.ts';

/** No converter runs so far: what lies beyond is as good as without bound. */
const mostKm = 10_000_000;

const cut = (km: number): string => (km > mostKm ? 'over ' : '');

/** Mileage by which a share fails, from a fit, where its unit stands beside it: '57,000', 'over 10,000,000'. */
export const formatLifeNumber = (km: number, units: Units): string =>
  `${cut(km)}${formatKmNumber(Math.min(km, mostKm), units)}`;

/** The same with its unit. */
const formatLife = (km: number, units: Units): string => `${cut(km)}${formatKm(Math.min(km, mostKm), units)}`;

/** Its bounds with their unit once; an open end is null. */
export function formatLifeRange(low: number | null, high: number | null, units: Units): string {
  if (low === null || high === null || (low <= mostKm && high <= mostKm))
    return formatKmRange(low, high, units);
  return `${formatLifeNumber(low, units)} to ${formatLife(high, units)}`;
}
