import { type Declined, decline } from '#server/engine/declined.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import { tQuantile } from '#server/engine/distributions/t-quantile.ts';
import { boundUnknownBreak } from './bound-unknown-break.ts';
import { findRangeOfBreaks } from './find-range-of-breaks.ts';
import { findStrongestRise } from './find-strongest-rise.ts';
import { fitOls } from './fit-ols.ts';
import { measurePath } from './measure-path.ts';
import { type Points, requirePoints } from './require-points.ts';
import { type Arc, traceBreaks } from './trace-breaks.ts';

export interface HingeQuestion extends Points {
  /** known: the weights are 1 / variance; estimated: they are relative (the default without weights) */
  scale?: 'known' | 'estimated';
  confidence?: number;
}

export interface Hinge {
  n: number;
  /** where the slope changes, unit of x, with its interval */
  break: number;
  low: number;
  high: number;
  confidence: number;
  /** value of the first line at x = 0, unit of y */
  intercept: number;
  slopeBefore: number;
  slopeAfter: number;
  rss: number;
  rssStraight: number;
  /** sqrt(rss / (n - 4)) */
  residualSd: number;
  /** of a straight line, against a change of slope of either sign */
  pAgainstStraight: number;
}

const LEAST_POINTS = 6;
const LEAST_DISTINCT = 5;

/**
 * Continuous hinge of two free slopes with unknown break.
 *
 * y = b0 + b1 x + b2 max(x - break, 0) + error by weighted least squares over all breaks between the second and the
 * last-but-one different x, exactly ({@link traceBreaks}). p: twice {@link boundUnknownBreak} of the strongest kink.
 * Interval: breaks with rss <= least rss + s^2 q^2, s^2 = rss / (n - 4) and q the t quantile, or s = 1 and q normal
 * where the scale is known.
 *
 * @param x, y, weight any order; weight in 1 / (unit of y)^2 where the scale is known
 * @param scale, confidence see {@link HingeQuestion}; confidence 0.95
 * @returns the fit, or declined below 6 points, below 5 different x, or where the points lie on one line
 * Source: Hudson (1966), J. Amer. Statist. Assoc. 61, 1097-1129; Muggeo (2003), Statistics in Medicine 22,
 * 3055-3071; p: Davies (1987), Biometrika 74, 33-43 (from memory). Edges: as said.
 * Errors: as {@link requirePoints}; throws on a confidence outside 0 to 1.
 * @example fitHinge({ x: [0, 1, 2, 3, 4, 5], y: [0, 0, 0, 1, 2, 3] }) // break 2, slopes 0 and 1
 */
export function fitHinge(question: HingeQuestion): Hinge | Declined {
  const { confidence = 0.95, scale = question.weight === undefined ? 'estimated' : 'known' } = question;
  if (!(confidence > 0 && confidence < 1)) throw new Error('fitHinge requires a confidence between 0 and 1');
  const points = requirePoints('fitHinge', question);
  const { n, x, y, w, distinct } = points;
  if (n < LEAST_POINTS) return decline('too few points', `at least ${LEAST_POINTS}`, `${n}`);
  if (distinct < LEAST_DISTINCT)
    return decline('too few different x', `at least ${LEAST_DISTINCT}`, `${distinct}`);
  const straight = fitOls(question);
  if ('declined' in straight) return straight;
  const rising = traceBreaks(points, 'straight', 2);
  const falling: Arc[] = rising.map((arc) => ({ ...arc, ay: -arc.ay, by: -arc.by }));
  const [up, down] = [findStrongestRise(rising), findStrongestRise(falling)];
  const scatter = straight.rss > 1e-24 * y.reduce((sum, one, i) => sum + (w[i] ?? 0) * one ** 2, 0);
  if (up === null || down === null || !scatter)
    return decline('points lie on one line', 'some scatter', 'none');
  const best = up.z >= down.z ? up : down;
  const change = up.z >= down.z ? up.change : -down.change;

  const bent = (i: number) => change * Math.max((x[i] ?? 0) - best.break, 0);
  const line = fitOls({ x: [...x], y: Array.from(y, (one, i) => one - bent(i)), weight: [...w] });
  if ('declined' in line) return line;
  const variance = scale === 'known' ? 1 : line.rss / (n - 4);
  const half = (1 + confidence) / 2;
  const q = scale === 'known' ? normalQuantile(half) : tQuantile(half, n - 4);
  const level = Math.sqrt(Math.max(0, best.z ** 2 - variance * q ** 2));
  const ranges = [findRangeOfBreaks(rising, level), findRangeOfBreaks(falling, level)].flatMap(
    (one) => one ?? [],
  );
  const peak = scale === 'known' ? best.z : Math.min(1, best.z / Math.sqrt(straight.rss));
  const dimensions = scale === 'known' ? null : n - 2;
  return {
    n,
    break: best.break,
    low: Math.min(best.break, ...ranges.map((one) => one.low)),
    high: Math.max(best.break, ...ranges.map((one) => one.high)),
    confidence,
    intercept: line.intercept,
    slopeBefore: line.slope,
    slopeAfter: line.slope + change,
    rss: line.rss,
    rssStraight: straight.rss,
    residualSd: Math.sqrt(line.rss / (n - 4)),
    pAgainstStraight: Math.min(1, 2 * boundUnknownBreak({ peak, length: measurePath(rising), dimensions })),
  };
}
