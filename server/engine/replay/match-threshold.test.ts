import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { matchThreshold } from './match-threshold.ts';

it('runs as its note says', () => {
  const x = matchThreshold([1, 2, 3, 4], 2, (at) => [1, 2, 3, 4].filter((v) => v >= at).length) ?? 0;
  expect(x).toBeGreaterThan(2);
  expect(x).toBeLessThanOrEqual(3);
});

it('meets the number among many values', () => {
  const { normal } = seededRandom(5);
  const values = Array.from({ length: 5_000 }, () => normal());
  for (const wanted of [0, 1, 7, 40, 900]) {
    const x = matchThreshold(values, wanted, (at) => values.filter((v) => v >= at).length) ?? 0;
    expect(values.filter((v) => v >= x).length).toBe(wanted);
  }
});

it('takes the highest that will do where the number falls again, and the most where it is never reached', () => {
  const values = Array.from({ length: 100 }, (_, i) => i);
  // Times of asking run together below 30.
  const count = (at: number) => (at > 90 ? 0 : at > 60 ? 4 : at > 30 ? 9 : 1);
  expect(matchThreshold(values, 4, count)).toBeGreaterThan(60);
  expect(count(matchThreshold(values, 20, count) ?? 0)).toBe(9);
  expect(matchThreshold([], 4, count)).toBeNull();
});
