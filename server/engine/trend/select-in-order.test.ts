import fc from 'fast-check';
import { expect, it } from 'vitest';
import { selectInOrder } from './select-in-order.ts';

it('runs as its note says', () => {
  expect(selectInOrder(Float64Array.of(5, 1, 3), [1])).toEqual([3]);
});

it('gives what sorting gives, ties and all', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -5, max: 20 }), { minLength: 1, maxLength: 60 }),
      fc.nat(),
      (values, seed) => {
        const sorted = [...values].sort((a, b) => a - b);
        const ranks = [seed % values.length, (seed * 7) % values.length, values.length - 1].sort(
          (a, b) => a - b,
        );
        expect(selectInOrder(Float64Array.from(values), ranks)).toEqual(ranks.map((rank) => sorted[rank]));
      },
    ),
    { seed: 4, numRuns: 300 },
  );
});

it('refuses a rank outside the values', () => {
  expect(() => selectInOrder(Float64Array.of(1), [1])).toThrow('selectInOrder requires');
});
