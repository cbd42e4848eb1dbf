import { describe, expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { measureAutocorrelation } from './measure-autocorrelation.ts';
import { measureAutocorrelations } from './measure-autocorrelations.ts';

it('runs as its note says', () => {
  // By hand: deviations -1.5, -0.5, 0.5, 1.5, sum of squares 5; lag 1: 1.25, lag 2: -1.5, lag 3: -2.25.
  const found = measureAutocorrelations([1, 2, 3, 4]);
  for (const [i, one] of [0.25, -0.3, -0.45].entries()) expect(found[i]).toBeCloseTo(one, 14);
  expect(measureAutocorrelations([5])).toHaveLength(0);
  expect([...measureAutocorrelations([1, 2, 3, 4], 1)]).toEqual([0.25]);
});

describe.each([511, 512, 513, 1000, 1024, 1025, 3000])('%i values', (n) => {
  it('have at every lag what the direct sum gives', () => {
    const random = seededRandom(n);
    let level = 0;
    const values = Array.from({ length: n }, (_, i) => {
      level = 0.8 * level + random.normal();
      return Math.round(10 * level) + i / 7;
    });
    const found = measureAutocorrelations(values);
    expect(found).toHaveLength(n - 1);
    for (let lag = 1; lag < n; lag += n > 1100 ? 13 : 1) {
      const direct = measureAutocorrelation(values, lag);
      expect(Math.abs((found[lag - 1] ?? Number.NaN) - direct)).toBeLessThan(1e-13);
    }
  });
});

it('is 0 where all values are equal', () => {
  expect(measureAutocorrelations(new Array(2000).fill(3)).every((one) => one === 0)).toBe(true);
});
