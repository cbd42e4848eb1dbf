import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { combinePValues } from './combine-p-values.ts';

it('runs as its note says', () => {
  expect(combinePValues([0.01, 0.01])).toBeCloseTo(0.01, 12);
});

// By another form of the same formula: tan((0.5 - p) pi) = cot(p pi), and 0.5 - arctan(T) / pi = arctan2(1, T) / pi.
it.each([[[0.03]], [[0.2, 0.5]], [[0.001, 0.3, 0.9]], [[1e-7, 0.4, 0.8, 0.05]]])(
  'follows the formula for %j',
  (given) => {
    const mean = given.reduce((sum, p) => sum + 1 / Math.tan(p * Math.PI), 0) / given.length;
    expect(combinePValues(given) / (Math.atan2(1, mean) / Math.PI)).toBeCloseTo(1, 9);
  },
);

// For small p, cot(p pi) is 1 / (p pi): one small p among k others of 0.5 combines to k times itself.
it('lets the loudest speak, at the price of how many were asked', () => {
  for (const p of [1e-4, 1e-8, 1e-12]) expect(combinePValues([p, 0.5, 0.5, 0.5]) / (4 * p)).toBeCloseTo(1, 6);
});

it('does not let a p of 1 wipe out evidence beside it', () => {
  expect(combinePValues([1e-6, 1])).toBeLessThan(3e-6);
  expect(combinePValues([1e-6, 1, 1, 1])).toBeLessThan(5e-6);
});

it('does not depend on the order', () => {
  expect(combinePValues([0.5, 1e-12, 0.9])).toBe(combinePValues([0.9, 1e-12, 0.5]));
});

it('stays between 0 and 1, and is 1 where there are none', () => {
  expect(combinePValues([])).toBe(1);
  expect(combinePValues([1, 1])).toBeCloseTo(0.99, 12);
  expect(combinePValues([0, 0])).toBeCloseTo(1e-15, 20);
  expect(combinePValues([0, 1, 0.5])).toBeLessThan(1e-14);
});

// Six one-sided z-tests that share half of their variance, no effect: the share below a level may exceed it by 3
// standard errors of a share of 20,000, 3 * sqrt(level / 20,000), and by a tenth for the truncation.
it('keeps its level where the tests go together and half of them say nothing', () => {
  const { normal } = seededRandom(11);
  const p = (z: number) => (z <= 0 ? 1 : oneSided(z));
  const trials = 20_000;
  const found = Array.from({ length: trials }, () => {
    const shared = normal();
    return combinePValues(Array.from({ length: 6 }, () => p(Math.sqrt(0.5) * (shared + normal()))));
  });
  for (const level of [0.01, 0.001]) {
    const share = found.filter((one) => one <= level).length / trials;
    expect(share).toBeLessThan(1.1 * level + 3 * Math.sqrt(level / trials));
  }
});

/** Upper tail of the normal for z > 0: Abramowitz and Stegun (1964), 26.2.17, error below 1e-7. */
function oneSided(z: number): number {
  const t = 1 / (1 + 0.2316419 * z);
  const height = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  const [a, b, c, d, e] = [0.31938153, -0.356563782, 1.781477937, -1.821255978, 1.330274429];
  return height * t * (a + t * (b + t * (c + t * (d + t * e))));
}
