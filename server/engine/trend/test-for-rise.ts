import { boundRise } from './bound-rise.ts';
import { describeBaselines } from './describe-baselines.ts';
import { findStrongestRise } from './find-strongest-rise.ts';
import { type FlatThenRisingQuestion, LEAST_AFTER } from './fit-flat-then-rising.ts';
import { measurePath } from './measure-path.ts';
import { requirePoints } from './require-points.ts';
import { traceBreaks } from './trace-breaks.ts';

const LEAST_POINTS = 5;

/**
 * p-value of no rise against flat-then-rising with an unknown break: `pAgainstFlat` of fitFlatThenRising alone, to the last
 * digit, in a third of the time. For where thousands of series are asked for nothing else.
 *
 * @param question as of fitFlatThenRising; the confidence plays no part
 * @returns probability, or null with fewer than 5 points or 5 different x
 * Source: that of fitFlatThenRising. Edges: equal y give more than 0.5. Errors: as requirePoints.
 * @example testForRise({ x: [0, 1, 2, 3, 4, 5, 6], y: [1, 1, 1, 1, 2, 3, 4] }) // 0: nothing scatters
 */
export function testForRise(question: FlatThenRisingQuestion): number | null {
  const { scale = question.weight === undefined ? 'estimated' : 'known' } = question;
  const points = requirePoints('testForRise', question);
  if (points.distinct < LEAST_POINTS) return null;
  const arcs = traceBreaks(points, 'flat', LEAST_AFTER);
  const z = findStrongestRise(arcs)?.z ?? 0;
  return boundRise(z, measurePath(arcs), describeBaselines(points).rssFlat, points.n - 1, scale);
}
