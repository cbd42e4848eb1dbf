import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anySeries, listEverySlope } from '#tests/helpers/slope-series.ts';
import { countSlopes, projectPoints } from './count-slopes.ts';

it('runs as its notes say', () => {
  const points = { x: Float64Array.of(0, 1, 2), y: Float64Array.of(0, 1, 5) };
  expect(countSlopes(points, 2)).toEqual({ below: 1, notAbove: 1 });
  expect(projectPoints({ x: Float64Array.of(1, 2), y: Float64Array.of(3, 4) }, 0).lower).toEqual(
    Float64Array.of(3, 4),
  );
});

describe('beside the slopes of all pairs, formed one by one', () => {
  const slopesAndValue = anySeries.chain((points) => {
    const slopes = listEverySlope(points);
    const values = [fc.double({ min: -10, max: 10, noNaN: true }), fc.constantFrom(...slopes, 0)];
    return fc.record({
      points: fc.constant(points),
      slopes: fc.constant(slopes),
      value: fc.oneof(...values),
    });
  });

  it('never counts one as below that is not, nor misses one that is not above', () => {
    fc.assert(
      fc.property(slopesAndValue, ({ points, slopes, value }) => {
        const { below, notAbove } = countSlopes(points, value);
        expect(below).toBeLessThanOrEqual(slopes.filter((one) => one < value).length);
        expect(notAbove).toBeGreaterThanOrEqual(slopes.filter((one) => one <= value).length);
        expect(notAbove).toBeLessThanOrEqual(slopes.length);
      }),
      { seed: 11, numRuns: 500 },
    );
  });

  it('counts exactly at 0 and at both infinities', () => {
    fc.assert(
      fc.property(slopesAndValue, ({ points, slopes }) => {
        expect(countSlopes(points, 0)).toEqual({
          below: slopes.filter((one) => one < 0).length,
          notAbove: slopes.filter((one) => one <= 0).length,
        });
        expect(countSlopes(points, Number.NEGATIVE_INFINITY)).toEqual({ below: 0, notAbove: 0 });
        const all = slopes.length;
        expect(countSlopes(points, Number.POSITIVE_INFINITY)).toEqual({ below: all, notAbove: all });
      }),
      { seed: 12, numRuns: 200 },
    );
  });
});
