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
  // By place: taking an array apart is ten times slower, and this runs for every stretch of a fleet several times.
  const m = (place: number) => moments[place] ?? 0;
  const l = effects.healthy[0] + rise * effects.worn[0];
  const f = effects.healthy[1] + rise * effects.worn[1];
  const d = effects.healthy[2] + rise * effects.worn[2];
  const explained = l * m(3) + f * m(6) + d * m(8);
  const squares =
    l * l * m(0) + f * f * m(4) + d * d * m(7) + 2 * (l * f * m(1) + l * d * m(2) + f * d * m(5));
  return Math.sqrt(Math.max(0, m(9) - 2 * explained + squares) / weight);
}
