import { expect, it } from 'vitest';
import { requirePoints } from './require-points.ts';
import { traceBreaks } from './trace-breaks.ts';

const x = [0, 1, 1, 2.5, 4, 4.5, 7];
const y = [1, 3, 2, 2, 6, 7, 5];
const weight = [1, 2, 1, 0.5, 1, 3, 1];

/** The same products the long way: take the baseline out of the regressor by weighted least squares. */
function productsAt(kink: number, baseline: 'flat' | 'straight') {
  const total = weight.reduce((a, b) => a + b, 0);
  const mean = (v: number[]) => v.reduce((a, b, i) => a + b * weight[i]!, 0) / total;
  const dot = (u: number[], v: number[]) => u.reduce((a, b, i) => a + b * v[i]! * weight[i]!, 0);
  const centre = (v: number[]) => v.map((b) => b - mean(v));
  const xc = centre(x);
  const take = (v: number[]) => {
    const c = centre(v);
    return baseline === 'flat' ? c : c.map((b, i) => b - (dot(c, xc) / dot(xc, xc)) * xc[i]!);
  };
  const v = take(x.map((one) => Math.max(one - kink, 0)));
  return { vy: dot(v, take(y)), vv: dot(v, v) };
}

it.each(['flat', 'straight'] as const)(
  'describes every kink as the long way does, over a %s baseline',
  (base) => {
    const arcs = traceBreaks(requirePoints('f', { x, y, weight }), base, 2);
    expect(arcs.map((arc) => arc.from)).toEqual(base === 'flat' ? [0, 1, 2.5, 4] : [1, 2.5, 4]);
    for (const arc of arcs) {
      for (const t of [0, 0.4 * arc.width, arc.width]) {
        const { vy, vv } = productsAt(arc.from + t, base);
        expect(arc.ay - t * arc.by).toBeCloseTo(vy, 10);
        expect(arc.aa - 2 * t * arc.ab + t * t * arc.bb).toBeCloseTo(vv, 10);
      }
    }
  },
);

it('leaves the last x out of reach where more must lie beyond the break', () => {
  const points = requirePoints('f', { x, y, weight });
  expect(traceBreaks(points, 'flat', 3).at(-1)?.from).toBe(2.5);
});

it('runs as its note says', () => {
  expect(traceBreaks(requirePoints('f', { x: [0, 1, 2], y: [0, 0, 1] }), 'flat', 1)).toHaveLength(2);
});
