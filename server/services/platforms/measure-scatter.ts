import type { CommonWeek } from '#server/engine/platform/estimate-common-movement.ts';
import { measureWeightedMad } from '#server/engine/robust/measure-weighted-mad.ts';

/** Differences between weeks below which nothing is said of their scatter. */
const LEAST_DIFFERENCES = 6;

/** True where a week had too few vehicles and took the figure of the week before. */
export const isCarried = (weeks: readonly CommonWeek[], i: number): boolean =>
  i > 0 && weeks[i]?.movementRpm === weeks[i - 1]?.movementRpm;

/**
 * Standard error of each week's common movement, rpm. What all vehicles do moves little from one week to the next, so
 * the differences of neighbours are noise, but for the few steps: sd = robust sd of the differences / sqrt(2), for the
 * usual number of vehicles, and by 1 / sqrt(vehicles) for another. Null where there are too few weeks.
 */
export function measureScatter(weeks: readonly CommonWeek[]): (number | null)[] {
  const told = weeks.filter((_, i) => !isCarried(weeks, i));
  const differences = told.slice(1).map((week, i) => week.movementRpm - (told[i]?.movementRpm ?? 0));
  if (differences.length < LEAST_DIFFERENCES) return weeks.map(() => null);
  const sd = measureWeightedMad(differences) / Math.SQRT2;
  const usual = [...told].map(({ vehicles }) => vehicles).sort((a, b) => a - b)[told.length >> 1] ?? 1;
  return weeks.map(({ vehicles }, i) =>
    isCarried(weeks, i) || vehicles === 0 ? null : sd * Math.sqrt(usual / vehicles),
  );
}
