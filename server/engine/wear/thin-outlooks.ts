import { orderByValue } from '#server/engine/smooth/order-by-value.ts';
import type { Outlook } from './outlook.ts';
import { wayLeft } from './way-left.ts';

/**
 * Fewer outlooks that say the same: equally likely ones, drawn evenly from the order of their way left.
 *
 * The i-th of n stands where the running sum of the weights, in order of way left, reaches (i + 1/2) / n of their total.
 *
 * @param outlooks of one clutch
 * @param limitRpm limit, rpm
 * @param most     n, a whole number from 1
 * @returns as they came where there are no more than n, else n of them, weights 1 / n of the total
 * Source: systematic sampling, Kitagawa (1996), J. Comput. Graph. Statist. 5, 1-25 (from memory), with a fixed start.
 * Edges: none stay none. Errors: none.
 * @example thinOutlooks(outlooks, 150, 120).length // 120 or fewer
 */
export function thinOutlooks(outlooks: readonly Outlook[], limitRpm: number, most: number): Outlook[] {
  if (outlooks.length <= most) return [...outlooks];
  // By the way left, of equal ones by level: the order by the second, put in order by the first.
  const byLevel = orderByValue(Float64Array.from(outlooks, (one) => one.levelRpm));
  const left = Float64Array.from(outlooks, (one) => wayLeft(one, limitRpm));
  const byLeft = orderByValue(Float64Array.from(byLevel, (i) => left[i] ?? 0));
  const total = outlooks.reduce((sum, one) => sum + one.weight, 0);
  const weight = total / most;
  const drawn: Outlook[] = [];
  let sum = 0;
  for (const rank of byLeft) {
    const one = outlooks[byLevel[rank] ?? 0];
    if (one === undefined) continue;
    sum += one.weight;
    while (drawn.length < most && sum >= (drawn.length + 0.5) * weight) drawn.push({ ...one, weight });
  }
  return drawn;
}
