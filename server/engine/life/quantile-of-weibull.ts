import type { BoundedLife, WeibullSpread } from './life-model.ts';
import { normalWidth } from './normal-width.ts';

/**
 * Mileage by which a share of Weibull lives have failed, with bounds.
 *
 * log t = log scale + w / shape, w = log(-log(1 - share));
 * var(log t) = var(log scale) + (w / shape)^2 var(log shape) - 2 (w / shape) cov; low, high = t exp(-+ z se(log t)).
 *
 * @param fit        shape, scale and covariance of their logarithms
 * @param share      above 0, below 1: 0.1 for the B10 life
 * @param confidence of the bounds, above 0, below 1
 * @returns estimate, low and high in the unit of the scale
 * Source: Meeker and Escobar (1998), Statistical Methods for Reliability Data, sections 8.4.2 and 8.4.3 (delta method,
 * Wald bounds on the log scale; from memory).
 * Edges: with variances of 0 all three are equal; bounds beyond all numbers are Infinity, or 0.
 * Errors: throws on a share or confidence outside 0 to 1.
 * @example quantileOfWeibull({ shape: 2, scale: 1, varLogScale: 0, varLogShape: 0, covLogs: 0 }, 0.1, 0.95) // 0.324593
 */
export function quantileOfWeibull(fit: WeibullSpread, share: number, confidence: number): BoundedLife {
  if (!(share > 0 && share < 1)) throw new Error('quantileOfWeibull requires a share above 0 and below 1');
  const { shape, scale, varLogScale, varLogShape, covLogs } = fit;
  const step = Math.log(-Math.log1p(-share)) / shape;
  const estimate = scale * Math.exp(step);
  const variance = varLogScale + step * step * varLogShape - 2 * step * covLogs;
  const width = normalWidth(confidence) * Math.sqrt(Math.max(0, variance));
  return { estimate, low: estimate * Math.exp(-width), high: estimate * Math.exp(width) };
}
