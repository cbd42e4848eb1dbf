import { milesFromKm } from '#server/contract/units.ts';
import { formatWhole, noFigure, roundToEstimate } from './format-number.ts';
import type { Units } from './units.ts';
import { withUnit } from './with-unit.ts';

type Km = number | null | undefined;

export const toReaderDistance = (km: number, units: Units): number =>
  units.distance === 'mi' ? milesFromKm(km) : km;

/** A distance that is an estimate, to two figures, where its unit stands beside it: '1,900'. */
export const formatKmNumber = (km: Km, units: Units): string =>
  km == null ? noFigure : formatWhole(roundToEstimate(toReaderDistance(km, units)));

/** The same with its unit: '1,900 km'. */
export const formatKm = (km: Km, units: Units): string =>
  km == null ? noFigure : withUnit(formatKmNumber(km, units), units.distance);

/** An interval of estimates with its unit once: '1,900 to 5,200 km'. */
export function formatKmRange(low: Km, high: Km, units: Units): string {
  if (low == null && high == null) return noFigure;
  if (high == null) return `over ${formatKm(low, units)}`;
  if (low == null) return `up to ${formatKm(high, units)}`;
  const from = formatWhole(roundToEstimate(toReaderDistance(low, units)));
  const to = formatKm(high, units);
  return to === withUnit(from, units.distance) ? to : `${from} to ${to}`;
}

/** What an odometer shows, whole: '312,407 km'. */
export function formatOdometer(km: Km, units: Units): string {
  return km == null ? noFigure : withUnit(formatWhole(toReaderDistance(km, units)), units.distance);
}

/** An axis tick in thousands, without its unit: '312'. */
export const formatThousands = (km: number, units: Units): string =>
  formatWhole(toReaderDistance(km, units) / 1000);
