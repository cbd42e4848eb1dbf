import { kmFromMiles } from '#server/contract/units.ts';
import { formatTenths, formatWhole, noFigure } from './format-number.ts';
import type { Units } from './units.ts';
import { withUnit } from './with-unit.ts';

export const formatRpm = (rpm: number | null | undefined): string =>
  rpm == null ? noFigure : withUnit(formatWhole(rpm), 'rpm');

/** Rate per thousand of the reader's distance, always with its sign: '+7.3'. */
export function formatDrift(rpmPer1000Km: number | null | undefined, units: Units): string {
  if (rpmPer1000Km == null) return noFigure;
  const rate = units.distance === 'mi' ? kmFromMiles(rpmPer1000Km) : rpmPer1000Km;
  const text = Math.abs(rate) < 10 ? formatTenths(rate) : formatWhole(rate);
  return /^[−0]/.test(text) && !/^0\.[1-9]/.test(text) ? text : `+${text}`;
}

export const driftUnit = (units: Units): string => `rpm per ${withUnit('1,000', units.distance)}`;
