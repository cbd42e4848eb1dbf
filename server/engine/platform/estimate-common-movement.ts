import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';

/** One vehicle's slip at the reference point, averaged by week. */
export interface WeeklySeries {
  /** week number to slip, rpm */
  byWeek: ReadonlyMap<number, number>;
}

/** What all vehicles of a platform did together in one week. */
export interface CommonWeek {
  week: number;
  /** against the first weeks, rpm */
  movementRpm: number;
  /** vehicles that the figure rests on */
  vehicles: number;
}

/** Fewer vehicles than this in a group, or in a week, cannot tell the group from its members. */
export const LEAST_VEHICLES = 8;
const LEAST_IN_WEEK = 5;
/** Movement is counted from the median of so many first weeks. */
const ANCHOR_WEEKS = 6;
const ROUNDS = 4;
/** A vehicle whose own late-minus-early rise lies so many robust standard deviations off takes no part. */
const DRIFTING = 3;

/**
 * Common movement of a platform: what its vehicles did together, week by week.
 *
 * Two-way fit slip(vehicle, week) = level(vehicle) + movement(week) + error by medians in turn, vehicles that rise on their own left out from the second round on: they
 * are told by the difference of their late and early residuals, more than 3 robust standard deviations from the
 * others'. Movement is 0 at the median of the first 6 weeks.
 *
 * @param vehicles weekly series of each vehicle of the platform, rpm
 * @returns weeks in order; empty where fewer than 8 vehicles are there, so that nothing is taken out
 * Source: median polish, Tukey (1977), Exploratory Data Analysis, chapter 11 (from memory).
 * Edges: a week with fewer than 5 vehicles takes the figure of the week before it. Errors: none.
 * @example estimateCommonMovement([]) // []
 */
export function estimateCommonMovement(vehicles: readonly WeeklySeries[]): CommonWeek[] {
  const taking = vehicles.filter((vehicle) => vehicle.byWeek.size >= 4);
  if (taking.length < LEAST_VEHICLES) return [];
  const weeks = [...new Set(taking.flatMap((vehicle) => [...vehicle.byWeek.keys()]))].sort((a, b) => a - b);
  let movement = new Map(weeks.map((week) => [week, 0]));
  let counted = new Map<number, number>();
  let part = taking;
  for (let round = 0; round < ROUNDS; round++) {
    const residuals = new Map<number, number[]>(weeks.map((week) => [week, []]));
    const rises: number[] = [];
    for (const vehicle of part) {
      const left = [...vehicle.byWeek].map(
        ([week, slip]) => [week, slip - (movement.get(week) ?? 0)] as const,
      );
      const level = measureMedian(left.map(([, slip]) => slip));
      for (const [week, slip] of vehicle.byWeek) residuals.get(week)?.push(slip - level);
      rises.push(lateMinusEarly(left));
    }
    counted = new Map(weeks.map((week) => [week, residuals.get(week)?.length ?? 0]));
    movement = polish(weeks, residuals);
    const centre = measureMedian(rises);
    const spread = Math.max(2, measureWeightedMad(rises));
    const calm = part.filter((_, i) => Math.abs((rises[i] ?? 0) - centre) <= DRIFTING * spread);
    if (calm.length >= LEAST_VEHICLES) part = calm;
  }
  return weeks.map((week) => ({
    week,
    movementRpm: movement.get(week) ?? 0,
    vehicles: counted.get(week) ?? 0,
  }));
}

function polish(weeks: readonly number[], residuals: ReadonlyMap<number, number[]>): Map<number, number> {
  let carried = 0;
  const raw = weeks.map((week) => {
    const values = residuals.get(week) ?? [];
    if (values.length >= LEAST_IN_WEEK) carried = measureMedian(values);
    return carried;
  });
  const anchor = measureMedian(raw.slice(0, ANCHOR_WEEKS));
  return new Map(weeks.map((week, i) => [week, (raw[i] ?? 0) - anchor]));
}

function lateMinusEarly(series: readonly (readonly [week: number, slip: number])[]): number {
  const inOrder = [...series].sort((a, b) => a[0] - b[0]).map(([, slip]) => slip);
  const third = Math.max(1, Math.floor(inOrder.length / 3));
  return measureMedian(inOrder.slice(-third)) - measureMedian(inOrder.slice(0, third));
}
