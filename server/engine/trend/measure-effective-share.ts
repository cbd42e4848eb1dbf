import { measureAutocorrelation } from './measure-autocorrelation.ts';

/**
 * Share of independent information in a series whose neighbours go together.
 *
 * n_eff / n = (1 - r1) / (1 + r1), r1 the autocorrelation at lag 1: exact for the mean of a long first-order
 * autoregressive series.
 *
 * @param values evenly spaced, in order; take trend or level out first, or it counts as correlation
 * @returns share, above 0 and at most 1
 * Source: Bayley and Hammersley (1946), J. Roy. Statist. Soc. Suppl. 8, 184-197; Wilks (2011), Statistical Methods
 * in the Atmospheric Sciences, equation 5.12 (from memory).
 * Variant: r1 below 0 counts as 0, so that the share never passes 1; r1 is kept at 0.99 at the most.
 * Edges: fewer than 3 values or equal ones give 1. Errors: none.
 * @example measureEffectiveShare([1, 2, 3, 4]) // 0.6
 */
export function measureEffectiveShare(values: readonly number[]): number {
  if (values.length < 3) return 1;
  const r1 = Math.min(0.99, Math.max(0, measureAutocorrelation(values, 1)));
  return (1 - r1) / (1 + r1);
}
