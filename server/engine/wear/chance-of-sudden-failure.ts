/** Weibull shape of converter life and the share of failures that give no notice: assumptions, no source. */
const SHAPE = 2.2;
const SUDDEN_SHARE = 0.12;
/** Gamma(1 + 1 / 2.2): mean of a Weibull life of that shape over its scale. */
const MEAN_OVER_SCALE = 0.8856;

/**
 * Chance of a failure without notice within some kilometres, given that the converter has run so far.
 *
 * F = share * (1 - exp(H(x) - H(x + ahead))), H(x) = (x / scale)^shape, scale = mean life / Gamma(1 + 1 / shape).
 *
 * @param lifeKm  mean life of converters on this platform, km
 * @param runKm   mileage of the converter, km
 * @param aheadKm kilometres ahead
 * @returns chance from 0 to the share of sudden failures
 * Source: conditional Weibull life, Meeker and Escobar 1998, section 4.8 (from memory). Edges: mileage below 0 counts as 0.
 * Errors: none.
 * @example chanceOfSuddenFailure(300_000, 150_000, 5_000) // 0.0015
 */
export function chanceOfSuddenFailure(lifeKm: number, runKm: number, aheadKm: number): number {
  const scale = lifeKm / MEAN_OVER_SCALE;
  const run = Math.max(0, runKm);
  const hazard = (km: number) => (km / scale) ** SHAPE;
  return SUDDEN_SHARE * (1 - Math.exp(hazard(run) - hazard(run + aheadKm)));
}
