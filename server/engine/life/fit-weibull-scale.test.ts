import { expect, it } from 'vitest';
import { had } from '#tests/published/had.ts';
import { fitWeibull } from './fit-weibull.ts';
import { fitWeibullScale } from './fit-weibull-scale.ts';

const lives = [
  { entry: 0, exit: 3, event: true, count: 1 },
  { entry: 0, exit: 4, event: false, count: 1 },
];

it('runs as its note says', () => {
  expect(fitWeibullScale(lives, 2)).toMatchObject({
    scale: expect.closeTo(5, 12),
    seLogScale: 0.5,
    events: 1,
  });
});

// Exponential lives: use watched per failure, log L = -r (log mean + 1).
it('is use per failure at a shape of 1, with late entry', () => {
  const fit = had(fitWeibullScale([...lives, { entry: 2, exit: 10, event: true, count: 5 }], 1));
  expect(fit.scale).toBeCloseTo((3 + 4 + 40) / 6, 12);
  expect(fit.loglik).toBeCloseTo(-6 * (Math.log(47 / 6) + 1), 12);
});

it('gives the scale and likelihood of the full fit at its shape', () => {
  const more = [...lives, { entry: 1, exit: 6, event: true, count: 2 }];
  const full = had(fitWeibull(more, 0.95));
  expect(fitWeibullScale(more, full.shape)).toMatchObject({
    scale: expect.closeTo(full.scale, 10),
    loglik: expect.closeTo(full.loglik, 10),
  });
});

it('declines lives without a failure, and scales beyond all numbers', () => {
  expect(fitWeibullScale([{ entry: 0, exit: 4, event: false, count: 1 }], 2)).toMatchObject({
    declined: { reason: 'no failures', needed: 'at least 1 failure' },
  });
  expect(fitWeibullScale([...lives, { entry: 0, exit: 9, event: false, count: 1e6 }], 1e-3)).toMatchObject({
    declined: { reason: 'the scale lies beyond all numbers' },
  });
  expect(() => fitWeibullScale(lives, 0)).toThrow('fitWeibullScale requires');
});
