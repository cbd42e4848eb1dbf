import { type Declined, decline } from '#server/engine/declined.ts';
import { measureWeightedMad } from './measure-weighted-mad.ts';
import { measureWeightedMedian } from './measure-weighted-median.ts';
import { requireValues } from './require-values.ts';

export interface HuberLocation {
  n: number;
  location: number;
  /** scaled median absolute deviation, held fixed */
  scale: number;
  /** standard error of the location */
  se: number;
}

const MOST_STEPS = 500;

/**
 * Huber's M-estimate of location with the scale held at the median absolute deviation.
 *
 * mu with sum w psi((y - mu) / s) = 0, psi(u) = max(-k, min(k, u)), s = 1.4826 MAD, by mean of the values drawn in
 * to mu +- k s, from the median on. se = s sqrt(sum w^2 psi^2) / sum w psi', both at the estimate.
 *
 * @param values any unit
 * @param weight not negative; relative importance of each value; without it each weighs 1
 * @param k      in standard deviations, 1.5
 * @returns location, scale and standard error in the unit of the values, or declined without values
 * Source: Huber (1964), Ann. Math. Statist. 35, 73-101; Huber (1981), Robust Statistics, section 6.4 for winsorised
 * residuals (from memory). Edges: scale 0 (more than half equal) gives the median with se 0.
 * Errors: as {@link requireValues}; throws on k of 0 or less.
 * @example estimateHuberLocation({ values: [1, 2, 3, 100] }) // location 2.908, scale 1.483
 */
export function estimateHuberLocation({
  values,
  weight,
  k = 1.5,
}: {
  values: readonly number[];
  weight?: readonly number[];
  k?: number;
}): HuberLocation | Declined {
  if (!(k > 0)) throw new Error('estimateHuberLocation requires k above 0');
  const points = requireValues('estimateHuberLocation', values, weight);
  const n = points.length;
  if (n === 0) return decline('no values', 'at least 1', '0');
  const scale = measureWeightedMad(values, weight);
  let location = measureWeightedMedian(values, weight);
  if (scale === 0) return { n, location, scale, se: 0 };
  const total = points.reduce((sum, point) => sum + point.weight, 0);
  const drawn = (value: number) => Math.max(-k, Math.min(k, (value - location) / scale));
  for (let step = 0; step < MOST_STEPS; step++) {
    const move = (scale * points.reduce((sum, one) => sum + one.weight * drawn(one.value), 0)) / total;
    location += move;
    if (Math.abs(move) <= 1e-12 * scale) break;
  }
  const squares = points.reduce((sum, one) => sum + (one.weight * drawn(one.value)) ** 2, 0);
  const inside = points.reduce((sum, one) => sum + (Math.abs(drawn(one.value)) < k ? one.weight : 0), 0);
  return { n, location, scale, se: (scale * Math.sqrt(squares)) / inside };
}
