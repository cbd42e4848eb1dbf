import { type Declined, decline, isDeclined } from '#server/engine/declined.ts';
import { fitOls } from '#server/engine/trend/fit-ols.ts';
import { fitThroughOrigin } from '#server/engine/trend/fit-through-origin.ts';

/**
 * Degradation path of one unit carried on to its limit: the pseudo failure time.
 *
 * Straight line by least squares, t = (limit - intercept) / slope; through the origin t = limit / slope.
 *
 * @param t, y  readings of one unit
 * @param limit at which the unit counts as failed, unit of y
 * @param path  'line' with an intercept, or 'through-origin'
 * @returns time in the unit of t and slope, or declined as the fit, or where the path does not rise
 * Source: Meeker and Escobar (1998), Statistical Methods for Reliability Data, section 13.8, approximate degradation
 * analysis. Edges: a limit already passed gives the time at which the line passed it.
 * Errors: as {@link fitOls}; throws on a limit that is not finite.
 * @example extrapolateToLimit({ t: [0, 1, 2], y: [1, 2, 3], limit: 11, path: 'line' }) // time 10
 */
export function extrapolateToLimit({
  t,
  y,
  limit,
  path,
}: {
  t: readonly number[];
  y: readonly number[];
  limit: number;
  path: 'line' | 'through-origin';
}): { time: number; slope: number } | Declined {
  if (!Number.isFinite(limit)) throw new Error('extrapolateToLimit requires a finite limit');
  const line = path === 'line' ? fitOls({ x: t, y }) : throughOrigin(t, y);
  if (isDeclined(line)) return line;
  const { slope, intercept } = line;
  if (!(slope > 0)) return decline('path does not rise', 'a slope above 0', slope.toPrecision(4));
  return { time: (limit - intercept) / slope, slope };
}

function throughOrigin(x: readonly number[], y: readonly number[]) {
  const line = fitThroughOrigin({ x, y });
  return isDeclined(line) ? line : { slope: line.slope, intercept: 0 };
}
