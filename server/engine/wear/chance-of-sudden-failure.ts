import type { LifeHazard } from '#server/engine/life/platform-life.ts';

/** Share of failures that give no notice: an assumption, no source. */
export const SUDDEN_SHARE = 0.12;

/**
 * Chance of a failure without notice within some kilometres, given that the converter has run so far.
 *
 * F = share * (1 - exp(H(x) - H(x + ahead))), H(x) = (x / scale)^shape.
 *
 * @param life    Weibull life of converters on this platform: all failures, with notice or without
 * @param runKm   mileage of the converter, km
 * @param aheadKm kilometres ahead
 * @returns chance from 0 to the share of sudden failures
 * Source: conditional Weibull life, Meeker and Escobar 1998, section 4.8 (from memory). Edges: mileage below 0 counts as 0.
 * Errors: none.
 * @example chanceOfSuddenFailure({ shape: 2.2, scaleKm: 338_753 }, 150_000, 5_000) // 0.0015
 */
export function chanceOfSuddenFailure(life: LifeHazard, runKm: number, aheadKm: number): number {
  const run = Math.max(0, runKm);
  const hazard = (km: number) => (km / life.scaleKm) ** life.shape;
  return SUDDEN_SHARE * (1 - Math.exp(hazard(run) - hazard(run + aheadKm)));
}
