import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';

/**
 * Half width of a two-sided interval in standard errors.
 *
 * z = -Phi^-1((1 - confidence) / 2), taken from the lower tail, which keeps its digits near a confidence of 1.
 *
 * @param confidence above 0, below 1
 * @returns standard errors to either side
 * Source: definition. Edges: none. Errors: throws on a confidence outside 0 to 1.
 * @example normalWidth(0.95) // 1.959964
 */
export function normalWidth(confidence: number): number {
  if (!(confidence > 0 && confidence < 1))
    throw new Error('normalWidth requires a confidence above 0 and below 1');
  return -normalQuantile((1 - confidence) / 2);
}
