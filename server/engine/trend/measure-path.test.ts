import { expect, it } from 'vitest';
import { measurePath } from './measure-path.ts';
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

it('measures the path that the fine search walks', () => {
  let walked = 0;
  for (let i = 1; i < fine.length; i++) {
    walked += Math.hypot(...fine[i]!.u.map((one, j) => one - fine[i - 1]!.u[j]!));
  }
  expect(measurePath(arcs)).toBeCloseTo(walked, 5);
});

it('runs as its note says', () => {
  expect(measurePath([])).toBe(0);
});
