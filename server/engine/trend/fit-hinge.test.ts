import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { fitHinge } from './fit-hinge.ts';

it('runs as its note says', () => {
  const hinge = fitHinge({ x: [0, 1, 2, 3, 4, 5], y: [0, 0, 0, 1, 2, 3] });
  expect(hinge).toMatchObject({
    break: expect.closeTo(2, 10),
    slopeBefore: expect.closeTo(0, 10),
    slopeAfter: expect.closeTo(1, 10),
  });
});

it('finds a kink downwards as well as one upwards', () => {
  const x = Array.from({ length: 20 }, (_, i) => i);
  const y = x.map((one) => 3 + 2 * one - 1.5 * Math.max(one - 8.25, 0));
  expect(fitHinge({ x, y })).toMatchObject({
    break: expect.closeTo(8.25, 8),
    intercept: expect.closeTo(3, 8),
    slopeBefore: expect.closeTo(2, 8),
    slopeAfter: expect.closeTo(0.5, 8),
  });
});

// 2000 straight series: standard error 0.5 %.
it('raises false alarms at a nominal 5 % in 1 to 7 % of straight series', () => {
  const random = seededRandom(41);
  let alarms = 0;
  for (let run = 0; run < 2000; run++) {
    const x = Array.from({ length: 30 }, () => random.uniform());
    const hinge = fitHinge({ x, y: x.map((one) => 1 + 4 * one + random.normal()) });
    if (!('declined' in hinge) && hinge.pAgainstStraight < 0.05) alarms++;
  }
  expect(alarms / 2000).toBeGreaterThan(0.01);
  expect(alarms / 2000).toBeLessThan(0.07);
});

it('declines what cannot be had', () => {
  expect(fitHinge({ x: [1, 2, 3], y: [1, 2, 3] })).toMatchObject({ declined: { reason: 'too few points' } });
  expect(fitHinge({ x: [1, 1, 2, 2, 3, 3], y: [1, 2, 3, 4, 5, 6] })).toMatchObject({
    declined: { reason: 'too few different x' },
  });
  expect(fitHinge({ x: [1, 2, 3, 4, 5, 6], y: [1, 1, 1, 1, 1, 1] })).toMatchObject({
    declined: { reason: 'points lie on one line' },
  });
  expect(() => fitHinge({ x: [1], y: [1], confidence: 0 })).toThrow('fitHinge requires a confidence');
});
