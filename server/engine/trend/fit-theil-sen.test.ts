import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { fitTheilSen } from './fit-theil-sen.ts';

it('runs as its note says: six slopes, 1, 1, 1, 13, 19, 37', () => {
  expect(fitTheilSen({ x: [1, 2, 3, 4], y: [1, 2, 3, 40] })).toMatchObject({ pairs: 6, slope: 7 });
});

it('is not moved by a glitch', () => {
  const x = Array.from({ length: 21 }, (_, i) => i);
  const y = x.map((one) => 3 + 2 * one);
  y[20] = 900;
  expect(fitTheilSen({ x, y })).toMatchObject({ slope: 2, intercept: 3, interceptJoint: 3 });
});

// 400 series: standard error 1.1 %.
it('covers the true slope about as often as it says', () => {
  const random = seededRandom(17);
  let covered = 0;
  for (let run = 0; run < 400; run++) {
    const x = Array.from({ length: 40 }, (_, i) => i);
    const y = x.map((one) => 0.2 * one + random.normal());
    const line = fitTheilSen({ x, y });
    if (!('declined' in line) && line.low <= 0.2 && line.high >= 0.2) covered++;
  }
  expect(covered / 400).toBeGreaterThan(0.915);
  expect(covered / 400).toBeLessThan(0.985);
});

it('declines what cannot be had', () => {
  expect(fitTheilSen({ x: [1, 2], y: [1, 2] })).toMatchObject({ declined: { reason: 'too few points' } });
  expect(fitTheilSen({ x: [1, 1, 1], y: [1, 2, 3] })).toMatchObject({ declined: { reason: 'all x equal' } });
  const many = Array.from({ length: 5001 }, (_, i) => i);
  expect(fitTheilSen({ x: many, y: many })).toMatchObject({
    declined: { reason: 'too many points', needed: 'at most 5000', got: '5001' },
  });
  expect(() => fitTheilSen({ x: [], y: [], confidence: 95 })).toThrow('fitTheilSen requires a confidence');
});
