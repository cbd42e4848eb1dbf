import fc from 'fast-check';
import { expect, it } from 'vitest';
import { orderByValue } from './order-by-value.ts';

it('runs as its note says', () => {
  expect(orderByValue([7, 5, 7, 1])).toEqual(Uint32Array.of(3, 1, 0, 2));
});

it('is the stable order of plain sorting, infinite and equal values among them', () => {
  const value = fc.oneof(fc.integer({ min: -3, max: 3 }), fc.constantFrom(Infinity, -Infinity, 0.5));
  fc.assert(
    fc.property(fc.array(value, { maxLength: 70 }), (values) => {
      const plain = values.map((_, i) => i).sort((a, b) => (values[a] ?? 0) - (values[b] ?? 0) || a - b);
      expect([...orderByValue(Float64Array.from(values))]).toEqual(plain);
    }),
    { numRuns: 60 },
  );
});
