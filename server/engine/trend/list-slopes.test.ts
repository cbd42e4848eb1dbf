import fc from 'fast-check';
import { expect, it } from 'vitest';
import { anySeries, listEverySlope } from '#tests/helpers/slope-series.ts';
import { countSlopes } from './count-slopes.ts';
import { listSlopes } from './list-slopes.ts';

it('runs as its note says', () => {
  const points = { x: Float64Array.of(0, 1, 2), y: Float64Array.of(0, 1, 5) };
  expect([...listSlopes(points, 0.5, 3, 2)].sort()).toEqual([1, 2.5]);
  expect(() => listSlopes(points, 0.5, 3, 3)).toThrow('listSlopes requires the true count: 3, not 2');
});

it('lists every slope between two values, and none that lies clearly outside', () => {
  const question = anySeries.chain((points) => {
    const value = fc.constantFrom(...listEverySlope(points), -1, 0, 0.5);
    return fc.record({ points: fc.constant(points), one: value, other: value });
  });
  fc.assert(
    fc.property(question, ({ points, one, other }) => {
      const [low, high] = [Math.min(one, other), Math.max(one, other)];
      const count = countSlopes(points, high).notAbove - countSlopes(points, low).below;
      const listed = listSlopes(points, low, high, count).sort();
      const inside = (slope: number) => slope >= low && slope <= high;
      const wanted = Float64Array.from(listEverySlope(points).filter(inside)).sort();
      expect(listed.filter(inside)).toEqual(wanted);
    }),
    { seed: 13, numRuns: 500 },
  );
});
