import type { ConditionEffects } from './fit-condition-effects.ts';

/**
 * Spread of slip within a stretch that the driving conditions do not explain.
 *
 * sqrt((ss - 2 b . s + b' X b) / weight), b = healthy + worn * rise, X the cross products of load, fluid and duty, s those
 * with slip.
 *
 * @param moments weighted centred cross products ll lf ld ls ff fd fs dd ds ss
 * @param weight  sum of the weights in them
 * @param rise    of slip above the platform's usual level, in 100 rpm
 * @param effects of the conditions
 * @returns root mean square, rpm
 * Source: residual sum of squares of a linear model, any textbook. Edges: 0 at the least. Errors: none.
 * @example measureSpreadLeft([0, 0, 0, 0, 0, 0, 0, 0, 0, 8], 2, 0, noEffects) // 2
 */
export function measureSpreadLeft(
  moments: readonly number[],
  weight: number,
  rise: number,
  effects: ConditionEffects,
): number {
  // By place, and without a function for it: both are many times slower, and this runs for every stretch several times.
  const l = effects.healthy[0] + rise * effects.worn[0];
  const f = effects.healthy[1] + rise * effects.worn[1];
  const d = effects.healthy[2] + rise * effects.worn[2];
  const explained = l * (moments[3] ?? 0) + f * (moments[6] ?? 0) + d * (moments[8] ?? 0);
  const squares =
    l * l * (moments[0] ?? 0) +
    f * f * (moments[4] ?? 0) +
    d * d * (moments[7] ?? 0) +
    2 * (l * f * (moments[1] ?? 0) + l * d * (moments[2] ?? 0) + f * d * (moments[5] ?? 0));
  return Math.sqrt(Math.max(0, (moments[9] ?? 0) - 2 * explained + squares) / weight);
}
