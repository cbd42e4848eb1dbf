import { expect, it } from 'vitest';
import { evaluateKink } from './evaluate-kink.ts';
import { requirePoints } from './require-points.ts';
import { traceBreaks } from './trace-breaks.ts';

it('runs as its note says', () => {
  const arc = { from: 3, width: 1, ay: 2, by: 0, aa: 4, ab: 0, bb: 1 };
  expect(evaluateKink(arc, 0)).toEqual({ break: 3, z: 1, change: 0.5 });
});

it('gives back the height of an exact kink', () => {
  const [x, y] = [
    [0, 1, 2, 3, 4, 5],
    [1, 1, 1, 1.5, 2, 2.5],
  ];
  const arc = traceBreaks(requirePoints('f', { x, y }), 'flat', 2).find((one) => one.from === 2);
  expect(evaluateKink(arc!, 0).change).toBeCloseTo(0.5, 12);
});
