import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { had } from '#tests/published/had.ts';
import { fitWeibull } from './fit-weibull.ts';
import { fitWeibullScale } from './fit-weibull-scale.ts';

const failed = (exit: number, entry = 0) => ({ entry, exit, event: true, count: 1 });

it('runs as its note says', () => {
  const { shape, scale } = had(fitWeibull([failed(1), failed(2)], 0.95));
  expect([shape, scale]).toEqual([expect.closeTo(3.46, 2), expect.closeTo(1.68, 2)]);
});

const some = [failed(3), failed(7, 2), failed(4), { entry: 1, exit: 9, event: false, count: 3 }];

it('lies at the maximum of the likelihood, and its errors at the curvature', () => {
  const { shape, loglik, seShape } = had(fitWeibull(some, 0.95));
  const profile = (at: number) => had(fitWeibullScale(some, at)).loglik;
  const step = 1e-3;
  expect(profile(shape)).toBeCloseTo(loglik, 12);
  expect(profile(shape - step)).toBeLessThan(loglik);
  expect(profile(shape + step)).toBeLessThan(loglik);
  const curvature = (2 * loglik - profile(shape - step) - profile(shape + step)) / step ** 2;
  expect(1 / Math.sqrt(curvature) / seShape).toBeCloseTo(1, 4);
});

it('only changes its unit with the unit of the lives, and takes counts for as many lives', () => {
  const one = had(fitWeibull(some, 0.9));
  const inMetres = had(
    fitWeibull(
      some.map((life) => ({ ...life, entry: 1000 * life.entry, exit: 1000 * life.exit })),
      0.9,
    ),
  );
  expect(inMetres.shape).toBeCloseTo(one.shape, 10);
  expect(inMetres.b10.low / one.b10.low).toBeCloseTo(1000, 6);
  const rows = some.flatMap((life) => Array.from({ length: life.count }, () => ({ ...life, count: 1 })));
  expect(had(fitWeibull(rows, 0.9)).seScale).toBeCloseTo(one.seScale, 10);
});

// 400 lives of shape 3 and scale 100 with truncation at an entry that nothing tells of: 5 standard errors.
it('recovers shape and scale of lives that were only seen from their entry on', () => {
  const random = seededRandom(11);
  const lives = [];
  while (lives.length < 400) {
    const exit = 100 * (-Math.log(1 - random.uniform())) ** (1 / 3);
    const entry = 120 * random.uniform();
    if (exit > entry)
      lives.push({ entry, exit: Math.min(exit, entry + 40), event: exit < entry + 40, count: 1 });
  }
  const fit = had(fitWeibull(lives, 0.95));
  expect(Math.abs(fit.shape - 3)).toBeLessThan(5 * fit.seShape);
  expect(Math.abs(fit.scale - 100)).toBeLessThan(5 * fit.seScale);
  expect(fit.seScale).toBeLessThan(5);
});

it('declines late entries that failed at once, and failures that numbers hardly tell apart', () => {
  expect(
    fitWeibull([failed(10, 9.9), failed(20, 19.9), { ...failed(300, 4), event: false }], 0.95),
  ).toMatchObject({
    declined: { reason: 'failures come so soon after entry that the fit has no maximum' },
  });
  expect(fitWeibull([failed(1), failed(1 + 1e-9)], 0.95)).toMatchObject({
    declined: { reason: 'failures too close together, or too far apart, for a shape' },
  });
});
