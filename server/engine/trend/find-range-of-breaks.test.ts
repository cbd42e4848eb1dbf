import { expect, it } from 'vitest';
import { findRangeOfBreaks } from './find-range-of-breaks.ts';
import { requirePoints } from './require-points.ts';
import { traceBreaks } from './trace-breaks.ts';

const x = [0, 1, 2, 3, 4, 5, 6, 7, 8];
const y = [1, 0, 1, 0, 1, 3, 4, 6, 7];
const arcs = traceBreaks(requirePoints('f', { x, y }), 'flat', 2);

/** z and the normed regressor at every thousandth of the range, the long way. */
const fine = Array.from({ length: 7001 }, (_, i) => {
  const kink = i / 1000;
  const h = x.map((one) => Math.max(one - kink, 0));
  const mean = h.reduce((a, b) => a + b, 0) / h.length;
  const length = Math.hypot(...h.map((one) => one - mean));
  const u = h.map((one) => (one - mean) / length);
  return { kink, u, z: u.reduce((a, b, j) => a + b * y[j]!, 0) };
});

it('gives the range that the fine search gives', () => {
  const inside = fine.filter((one) => one.z >= 6.5).map((one) => one.kink);
  const range = findRangeOfBreaks(arcs, 6.5);
  expect(Math.abs(range!.low - Math.min(...inside))).toBeLessThan(0.0011);
  expect(Math.abs(range!.high - Math.max(...inside))).toBeLessThan(0.0011);
  expect(findRangeOfBreaks(arcs, 100)).toBeNull();
});

it('runs as its note says', () => {
  expect(findRangeOfBreaks([], 1)).toBeNull();
});
