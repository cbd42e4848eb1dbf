import { type Declined, decline } from '#server/engine/declined.ts';
import { chanceOfPassage } from './chance-of-passage.ts';
import type { Approach } from './describe-passage.ts';

const MOST_STEPS = 200;

/**
 * Time by which a Wiener process with drift has reached a limit with a given chance.
 *
 * t with P(T <= t) = p, P as in {@link chanceOfPassage}: bracketed by doubling and halved on the logarithm of t
 * until both ends agree to 13 digits.
 *
 * @param approach see {@link Approach}
 * @param p        chance, above 0 and below 1
 * @returns time in the unit of t, or declined where the chance is never reached
 * Source: definition; bisection, any textbook. Edges: a drift of 0 or less reaches only exp(2 drift distance /
 * variance), so higher chances are declined, and so is what lies beyond 1e300.
 * Errors: throws on p outside 0 to 1 and as {@link chanceOfPassage}.
 * @example quantileOfPassage({ distance: 1, drift: 1, variance: 1 }, 0.668102) // 1
 */
export function quantileOfPassage(approach: Approach, p: number): number | Declined {
  if (!(p > 0 && p < 1)) throw new Error('quantileOfPassage requires a chance between 0 and 1');
  const { distance, drift, variance } = approach;
  const reached = drift >= 0 ? 1 : Math.exp((2 * drift * distance) / variance);
  if (p >= reached) return decline('chance never reached', `below ${reached.toPrecision(4)}`, `${p}`);
  const start = drift > 0 ? distance / drift : distance ** 2 / variance;
  let [low, high] = [start, start];
  while (chanceOfPassage(approach, low) > p) low /= 2;
  while (chanceOfPassage(approach, high) < p) {
    high *= 2;
    if (high > 1e300) return decline('chance never reached', 'a time below 1e300', 'a later one');
  }
  for (let step = 0; step < MOST_STEPS && high > low * (1 + 1e-13); step++) {
    const middle = Math.sqrt(low) * Math.sqrt(high);
    if (chanceOfPassage(approach, middle) < p) low = middle;
    else high = middle;
  }
  return Math.sqrt(low) * Math.sqrt(high);
}
