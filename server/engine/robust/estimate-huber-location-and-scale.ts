import { type Declined, decline } from '#server/engine/declined.ts';
import { normalCdf } from '#server/engine/distributions/normal-cdf.ts';
import { measureWeightedMad } from './measure-weighted-mad.ts';
import { measureWeightedMedian } from './measure-weighted-median.ts';
import { requireValues } from './require-values.ts';

const MOST_STEPS = 2000;

/**
 * Huber's Proposal 2: robust location and scale together.
 *
 * Draw the values in to mu +- k s; mu = mean of the drawn-in values, s^2 = sum (drawn-in - mu)^2 / (n - 1) / beta,
 * beta = theta + k^2 (1 - theta) - 2 k phi(k), theta = 2 Phi(k) - 1; repeated until neither moves.
 *
 * @param values any unit
 * @param weight not negative; relative importance of each value; sums then run over w n / sum w
 * @param k      in standard deviations, 1.5
 * @returns n, location and scale in the unit of the values, or declined below 2 values or without convergence
 * Source: Huber (1964), Ann. Math. Statist. 35, 73-101, proposal 2; Venables and Ripley (2002), Modern Applied
 * Statistics with S, section 5.5, for the divisor n - 1. Edges: scale 0 (more than half equal) gives the median.
 * Errors: as {@link requireValues}; throws on k of 0 or less.
 * @example estimateHuberLocationAndScale({ values: [1, 2, 3, 4, 5] }) // location 3, scale 1.792
 */
export function estimateHuberLocationAndScale({
  values,
  weight,
  k = 1.5,
}: {
  values: readonly number[];
  weight?: readonly number[];
  k?: number;
}): { n: number; location: number; scale: number } | Declined {
  if (!(k > 0)) throw new Error('estimateHuberLocationAndScale requires k above 0');
  const points = requireValues('estimateHuberLocationAndScale', values, weight);
  const n = points.length;
  if (n < 2) return decline('too few values', 'at least 2', `${n}`);
  const theta = 2 * normalCdf(k) - 1;
  const beta = theta + k * k * (1 - theta) - (2 * k * Math.exp((-k * k) / 2)) / Math.sqrt(2 * Math.PI);
  const share = n / points.reduce((sum, point) => sum + point.weight, 0);
  let location = measureWeightedMedian(values, weight);
  let scale = measureWeightedMad(values, weight);
  const start = scale;
  if (start === 0) return { n, location, scale };
  for (let step = 0; step < MOST_STEPS; step++) {
    const [low, high] = [location - k * scale, location + k * scale];
    const drawn = points.map((one) => Math.max(low, Math.min(high, one.value)));
    const next = drawn.reduce((sum, value, i) => sum + share * (points[i]?.weight ?? 0) * value, 0) / n;
    const squares = drawn.reduce(
      (sum, value, i) => sum + share * (points[i]?.weight ?? 0) * (value - next) ** 2,
      0,
    );
    const nextScale = Math.sqrt(squares / (n - 1) / beta);
    const moved = Math.max(Math.abs(next - location), Math.abs(nextScale - scale));
    location = next;
    scale = nextScale;
    if (moved <= 1e-12 * start) return { n, location, scale };
  }
  return decline('no convergence', 'steps below 1e-12 of the scale', `${MOST_STEPS} steps`);
}
