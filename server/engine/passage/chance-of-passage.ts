import { logNormalCdf } from '#server/engine/distributions/log-normal-cdf.ts';
import type { Approach } from './describe-passage.ts';

/**
 * Chance that a Wiener process with drift has reached a limit by some time.
 *
 * P(T <= t) = Phi((drift t - a) / (sigma sqrt t)) + exp(2 drift a / sigma^2) Phi(-(drift t + a) / (sigma sqrt t)),
 * a the distance; the second term formed in logarithms. With a drift above 0 it is the inverse Gaussian
 * distribution; with one of 0 or less it stays below exp(2 drift a / sigma^2).
 *
 * @param approach see {@link Approach}
 * @param time     t, unit of t
 * @returns probability
 * Source: Cox and Miller (1965), The Theory of Stochastic Processes, section 5.7; Chhikara and Folks (1989),
 * The Inverse Gaussian Distribution, chapter 3 (from memory). Edges: a time of 0 or less gives 0.
 * Errors: throws on a distance or variance of 0 or less and a drift that is not finite.
 * @example chanceOfPassage({ distance: 1, drift: 1, variance: 1 }, 1) // 0.668102
 */
export function chanceOfPassage({ distance, drift, variance }: Approach, time: number): number {
  if (!(distance > 0 && variance > 0 && Number.isFinite(drift))) {
    throw new Error('chanceOfPassage requires a distance and a variance above 0 and a finite drift');
  }
  if (!(time > 0)) return 0;
  const spread = Math.sqrt(variance * time);
  const first = logNormalCdf((drift * time - distance) / spread);
  const second = (2 * drift * distance) / variance + logNormalCdf(-(drift * time + distance) / spread);
  return Math.min(1, Math.exp(first) + Math.exp(second));
}
