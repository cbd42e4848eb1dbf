import type { KmRange } from './mileage-view.ts';

/** Closer than this a stretch of 500 km would fill the plot. */
const leastSpanKm = 3000;

/** Keeps a range within the whole, and wide enough to show anything. */
export function fitRange(range: KmRange, whole: KmRange): KmRange {
  const wholeSpan = whole.toKm - whole.fromKm;
  const span = Math.min(Math.max(range.toKm - range.fromKm, Math.min(leastSpanKm, wholeSpan)), wholeSpan);
  const middle = (range.fromKm + range.toKm) / 2;
  const fromKm = Math.min(Math.max(middle - span / 2, whole.fromKm), whole.toKm - span);
  return { fromKm, toKm: fromKm + span };
}

/** A factor below 1 comes closer; the kilometre under the pointer stays where it is. */
export function zoomAbout(range: KmRange, whole: KmRange, km: number, factor: number): KmRange {
  const span = range.toKm - range.fromKm;
  const least = Math.min(leastSpanKm, whole.toKm - whole.fromKm);
  const used = Math.max(factor, least / span);
  return fitRange({ fromKm: km - (km - range.fromKm) * used, toKm: km + (range.toKm - km) * used }, whole);
}

export const panBy = (range: KmRange, whole: KmRange, km: number): KmRange =>
  fitRange({ fromKm: range.fromKm + km, toKm: range.toKm + km }, whole);

/** The address holds whole kilometres. */
export const isSame = (a: KmRange, b: KmRange): boolean =>
  Math.abs(a.fromKm - b.fromKm) < 2 && Math.abs(a.toKm - b.toKm) < 2;
