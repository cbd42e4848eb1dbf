import { type Declined, decline } from '#server/engine/declined.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import { tQuantile } from '#server/engine/distributions/t-quantile.ts';
import { boundRise } from './bound-rise.ts';
import { describeBaselines, ROUNDING } from './describe-baselines.ts';
import type { Kink } from './evaluate-kink.ts';
import { findRangeOfBreaks } from './find-range-of-breaks.ts';
import { findStrongestRise } from './find-strongest-rise.ts';
import { measurePath } from './measure-path.ts';
import { type Points, requirePoints, type SortedPoints } from './require-points.ts';
import { type Arc, traceBreaks } from './trace-breaks.ts';

export interface FlatThenRisingQuestion extends Points {
  /**
   * known: the weights are 1 / variance of each point (the default where weights are given);
   * estimated: the weights are relative, the scatter tells the scale (the default without weights);
   * larger: as known, but never surer than the scatter allows.
   */
  scale?: 'known' | 'estimated' | 'larger';
  /** of the interval for the break, 0 to 1 */
  confidence?: number;
}

export interface FlatThenRising {
  n: number;
  /** where the rise begins, in the unit of x; null where nothing rises */
  break: number | null;
  /** interval for the break; at an end of the data it is open to that side */
  low: number | null;
  high: number | null;
  confidence: number;
  /** level before the break, in the unit of y */
  before: number;
  /** rise after the break, unit of y per unit of x, 0 or more */
  slopeAfter: number;
  /** its standard error, the break being unknown; null where nothing rises or all beyond is at one x */
  seSlope: number | null;
  /** weighted residual sum of squares of this fit, of a constant and of a straight line */
  rss: number;
  rssFlat: number;
  rssStraight: number;
  /** rss / (n - 3): about 1 where the weights are 1 / variance and the points independent */
  dispersion: number;
  /** one-sided p against no rise, and of a straight line against one that turns up */
  pAgainstFlat: number;
  pAgainstStraight: number;
}

/** Different x from the break on: fewer could be one glitch. Own choice. */
export const LEAST_AFTER = 3;
const LEAST_POINTS = 5;

/**
 * Continuous hinge, flat and then rising, with unknown break: the onset of a drift.
 *
 * y = before + slopeAfter * max(x - break, 0) + error, slopeAfter >= 0, by weighted least squares over all breaks
 * from the first x to the last-but-two, exactly ({@link traceBreaks}).
 * p against flat: {@link boundUnknownBreak} of z = v.y / |v|. p against straight: the same for a kink upwards over a
 * straight line. Interval: breaks with rss <= least rss + s^2 q^2, q the normal (known) or t (n - 3) quantile.
 * seSlope = s / sqrt(sum over x > break of w (x - mean)^2), the linearised error with the break estimated.
 *
 * @param x, y, weight  the series, any order; weight in 1 / (unit of y)^2 where the scale is known
 * @param scale, confidence see {@link FlatThenRisingQuestion}; confidence 0.95
 * @returns the fit, or declined with fewer than 5 points or 5 different x
 * Source: hinge by profile search, Hudson (1966), J. Amer. Statist. Assoc. 61, 1097-1129; p for a parameter that is
 * there only under the alternative, Davies (1987), Biometrika 74, 33-43; error of a segmented slope, Muggeo (2003),
 * Statistics in Medicine 22, 3055-3071 (all from memory). Variant: Davies' bound with the exact length of the path.
 * Edges: equal y give no break and a p above 0.5. Cost O(n log n). Errors: as {@link requirePoints}; confidence off 0 to 1.
 * @example fitFlatThenRising({ x: [0, 1, 2, 3, 4, 5, 6], y: [1, 1, 1, 1, 2, 3, 4] }) // break 3, slopeAfter 1
 */
export function fitFlatThenRising(question: FlatThenRisingQuestion): FlatThenRising | Declined {
  const { confidence = 0.95, scale = question.weight === undefined ? 'estimated' : 'known' } = question;
  const points = requirePoints('fitFlatThenRising', question);
  if (!(confidence > 0 && confidence < 1)) {
    throw new Error('fitFlatThenRising requires a confidence between 0 and 1');
  }
  const { n, distinct } = points;
  if (n < LEAST_POINTS) return decline('too few points', `at least ${LEAST_POINTS}`, `${n}`);
  if (distinct < LEAST_POINTS)
    return decline('too few different x', `at least ${LEAST_POINTS}`, `${distinct}`);

  const arcs = traceBreaks(points, 'flat', LEAST_AFTER);
  const best = findStrongestRise(arcs);
  const plain = describeBaselines(points);
  const kink = best !== null && best.z > 0 && plain.rssFlat > 0 ? best : null;
  const before = plain.mean - (kink === null ? 0 : kink.change * meanBeyond(points, kink.break));
  const rss = kink === null ? plain.rssFlat : residualsOf(points, before, kink);
  const dispersion = rss / (n - 3);
  const variance = scale === 'known' ? 1 : scale === 'larger' ? Math.max(1, dispersion) : dispersion;

  const half = (1 + confidence) / 2;
  const q = scale === 'known' ? normalQuantile(half) : tQuantile(half, n - 3);
  const level = kink === null ? 0 : kink.z ** 2 - variance * q ** 2;
  const everywhere = { low: arcs[0]?.from ?? 0, high: endOf(arcs.at(-1)) };
  const range = kink === null ? null : level > 0 ? findRangeOfBreaks(arcs, Math.sqrt(level)) : everywhere;
  const spread = kink === null ? 0 : spreadBeyond(points, kink.break);
  const bend = traceBreaks(points, 'straight', LEAST_AFTER);
  return {
    n,
    break: kink?.break ?? null,
    low: range?.low ?? null,
    high: range?.high ?? null,
    confidence,
    before,
    slopeAfter: kink?.change ?? 0,
    seSlope: spread > 0 ? Math.sqrt(variance / spread) : null,
    rss,
    rssFlat: plain.rssFlat,
    rssStraight: plain.rssStraight,
    dispersion,
    pAgainstFlat: boundRise(best?.z ?? 0, measurePath(arcs), plain.rssFlat, n - 1, scale),
    pAgainstStraight: boundRise(
      plain.rssStraight > ROUNDING * plain.sumSquares ? (findStrongestRise(bend)?.z ?? 0) : 0,
      measurePath(bend),
      plain.rssStraight,
      n - 2,
      scale,
    ),
  };
}

function endOf(arc: Arc | undefined): number {
  return arc === undefined ? 0 : arc.from + arc.width;
}

/** Weighted mean of max(x - from, 0). */
function meanBeyond({ n, x, w }: SortedPoints, from: number): number {
  let total = 0;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    total += w[i] ?? 0;
    sum += (w[i] ?? 0) * Math.max((x[i] ?? 0) - from, 0);
  }
  return sum / total;
}

/** Weighted sum of squares of x beyond a place about their mean. */
function spreadBeyond({ n, x, w }: SortedPoints, from: number): number {
  let [total, mean, sum] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const h = (x[i] ?? 0) - from;
    const weight = w[i] ?? 0;
    if (!(h > 0)) continue;
    total += weight;
    const shift = h - mean;
    mean += (shift * weight) / total;
    sum += weight * shift * (h - mean);
  }
  return sum;
}

function residualsOf({ n, x, y, w }: SortedPoints, before: number, kink: Kink): number {
  let rss = 0;
  for (let i = 0; i < n; i++) {
    const fitted = before + kink.change * Math.max((x[i] ?? 0) - kink.break, 0);
    rss += (w[i] ?? 0) * ((y[i] ?? 0) - fitted) ** 2;
  }
  return rss;
}
