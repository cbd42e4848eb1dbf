import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';
import type { CommonWeek } from './estimate-common-movement.ts';

/** A step of a whole platform. */
export interface FleetEvent {
  /** moment in weeks, with the fraction within the week */
  week: number;
  sizeRpm: number;
  vehicles: number;
}

/** Weeks on either side that are compared. */
const SIDE = 4;
/** A step is at least this large, rpm, and this many robust standard deviations of the ordinary differences. */
const LEAST_RPM = 6;
const LEAST_SIGMA = 4;
/** It happens within two weeks: this share of it at the least. A season's slope spreads over all. */
const LEAST_SHARP = 0.6;
/** Weeks that the largest difference can stand beside the step, since four medians in a row see all of it. */
const BESIDE = 2;

/**
 * Steps in the common movement of a platform: a software update, a sensor recalibration.
 *
 * d(w) = median of the 4 weeks after w - median of the 4 weeks before w, as many as there are; a step stands where
 * |d| is the largest within 4 weeks either way, at least 6 rpm, at least 4 robust standard deviations of d elsewhere
 * and of the weeks' own noise, and where two weeks hold at least 0.6 of it: m(k + 1) - m(k - 1), k the sharpest week
 * near w. The moment follows from how far week k had gone: k + 1 - (m(k) - before) / d(k).
 *
 * @param weeks common movement in order of weeks
 * @returns steps in order of time
 * Source: a two-sample moving window (own choice of widths). Edges: fewer than 8 weeks give none. Errors: none.
 * @example findFleetEvents([]) // []
 */
export function findFleetEvents(weeks: readonly CommonWeek[]): FleetEvent[] {
  const values = weeks.map((week) => week.movementRpm);
  const at = (i: number) => values[i] ?? 0;
  const before = (i: number) => measureMedian(values.slice(Math.max(0, i - SIDE), i));
  const difference = (i: number) => measureMedian(values.slice(i + 1, i + 1 + SIDE)) - before(i);
  const sharpness = (i: number) => at(i + 1) - at(i - 1);
  const centres = weeks.map((_, i) => i).filter((i) => i >= SIDE && i + SIDE <= weeks.length);
  const differences = new Map(centres.map((i) => [i, difference(i)]));
  const noise = measureWeightedMad(values.slice(1).map((value, i) => value - at(i))) / Math.SQRT2;
  const events: FleetEvent[] = [];
  for (const [i, d] of differences) {
    const size = Math.abs(d);
    const elsewhere = [...differences].filter(([j]) => Math.abs(j - i) >= SIDE).map(([, other]) => other);
    const ordinary = Math.max(0.5, noise, elsewhere.length < 3 ? 0 : measureWeightedMad(elsewhere));
    if (size < LEAST_RPM || size < LEAST_SIGMA * ordinary) continue;
    const rivals = [...differences].filter(([j]) => j !== i && Math.abs(j - i) < SIDE);
    if (rivals.some(([j, other]) => Math.abs(other) > size || (Math.abs(other) === size && j < i))) continue;
    let k = i;
    for (let j = i - BESIDE; j <= i + BESIDE; j++)
      if (j + 1 < weeks.length && sharpness(j) * d > sharpness(k) * d) k = j;
    const sizeRpm = difference(k);
    if (sharpness(k) / d < LEAST_SHARP) continue;
    const gone = Math.min(1, Math.max(0, (at(k) - before(k)) / sizeRpm));
    events.push({ week: (weeks[k]?.week ?? 0) + 1 - gone, sizeRpm, vehicles: weeks[k]?.vehicles ?? 0 });
  }
  return events;
}
