import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { measureEffectiveShare } from './measure-effective-share.ts';

it('runs as its note says', () => {
  expect(measureEffectiveShare([1, 2, 3, 4])).toBeCloseTo(0.6, 12);
});

it('tells how much the mean of a correlated series really varies', () => {
  const random = seededRandom(2);
  let value = 0;
  const values = Array.from({ length: 20_000 }, () => {
    value = 0.6 * value + random.normal();
    return value;
  });
  // True share (1 - 0.6) / (1 + 0.6) = 0.25; the standard error of r1 is 0.006, that of the share 0.005.
  expect(measureEffectiveShare(values)).toBeGreaterThan(0.23);
  expect(measureEffectiveShare(values)).toBeLessThan(0.27);
});

it('never passes 1', () => {
  expect(measureEffectiveShare([1, -1, 1, -1, 1])).toBe(1);
  expect(measureEffectiveShare([1, 2])).toBe(1);
  expect(measureEffectiveShare([3, 3, 3, 3])).toBe(1);
});
