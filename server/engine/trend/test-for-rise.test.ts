import fc from 'fast-check';
import { expect, it } from 'vitest';
import { isDeclined } from '#server/engine/declined.ts';
import { fitFlatThenRising } from './fit-flat-then-rising.ts';
import { testForRise } from './test-for-rise.ts';

it('runs as its note says', () => {
  expect(testForRise({ x: [0, 1, 2, 3, 4, 5, 6], y: [1, 1, 1, 1, 2, 3, 4] })).toBe(0);
});

it('is the p-value of the whole fit to the last digit, ties and weights of 0 among the points', () => {
  const point = fc.record({
    x: fc.integer({ min: 0, max: 12 }),
    y: fc.double({ min: -50, max: 50, noNaN: true }),
    w: fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 4, noNaN: true })),
  });
  fc.assert(
    fc.property(
      fc.array(point, { maxLength: 40 }),
      fc.constantFrom('known', 'estimated', 'larger'),
      (points, scale) => {
        const question = {
          x: points.map(({ x }) => x),
          y: points.map(({ y }) => y),
          weight: points.map(({ w }) => w),
          scale,
        } as const;
        const whole = fitFlatThenRising(question);
        expect(testForRise(question)).toBe(isDeclined(whole) ? null : whole.pAgainstFlat);
      },
    ),
    { numRuns: 80 },
  );
});
