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

/**
 * Steps in the common movement of a platform: a software update, a sensor recalibration.
 *
 * d(w) = median of the 4 weeks from w on - median of the 4 weeks before w; a step stands where |d| is the largest
 * within 4 weeks either way, at least 6 rpm and at least 4 robust standard deviations of d over all weeks. The
 * moment within the week follows from how far that week's figure had gone: week + 1 - (m(w) - before) / d.
 *
 * @param weeks common movement in order of weeks
 * @returns steps in order of time
 * Source: a two-sample moving window (own choice of widths). Edges: fewer than 9 weeks give none. Errors: none.
 * @example findFleetEvents([]) // []
 */
export function findFleetEvents(weeks: readonly CommonWeek[]): FleetEvent[] {
  const values = weeks.map((week) => week.movementRpm);
  const centres = weeks.map((_, i) => i).filter((i) => i >= SIDE && i + SIDE <= weeks.length);
  const before = (i: number) => measureMedian(values.slice(i - SIDE, i));
  const after = (i: number) =>
    measureMedian(values.slice(i + 1, i + 1 + SIDE).concat(i + 1 >= values.length ? (values[i] ?? 0) : []));
  const differences = new Map(centres.map((i) => [i, after(i) - before(i)]));
  const ordinary = Math.max(0.5, measureWeightedMad([...differences.values()]));
  const events: FleetEvent[] = [];
  for (const [i, difference] of differences) {
    const size = Math.abs(difference);
    if (size < LEAST_RPM || size < LEAST_SIGMA * ordinary) continue;
    const rivals = [...differences].filter(([j]) => j !== i && Math.abs(j - i) < SIDE);
    if (rivals.some(([j, other]) => Math.abs(other) > size || (Math.abs(other) === size && j < i))) continue;
    const gone = Math.min(1, Math.max(0, ((values[i] ?? 0) - before(i)) / difference));
    events.push({
      week: (weeks[i]?.week ?? 0) + 1 - gone,
      sizeRpm: difference,
      vehicles: weeks[i]?.vehicles ?? 0,
    });
  }
  return events;
}
