import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { fitWienerDrift } from './fit-wiener-drift.ts';

it('runs as its note says', () => {
  // By hand: 4 / 3; ((2 - 4/3)^2 / 1 + (2 - 8/3)^2 / 2) / 2 = (4/9 + 2/9) / 2.
  expect(fitWienerDrift([{ t: [0, 1, 3], y: [0, 2, 4] }])).toMatchObject({
    increments: 2,
    drift: expect.closeTo(4 / 3, 12),
    variance: expect.closeTo(1 / 3, 12),
  });
});

it('recovers drift and variance within four standard errors', () => {
  const random = seededRandom(6);
  const t = [0];
  const y = [0];
  for (let i = 0; i < 4000; i++) {
    const dt = 0.2 + random.uniform();
    t.push((t.at(-1) ?? 0) + dt);
    y.push((y.at(-1) ?? 0) + 0.5 * dt + 2 * Math.sqrt(dt) * random.normal());
  }
  const fit = fitWienerDrift([{ t, y }]);
  if ('declined' in fit) throw new Error('declined');
  expect(Math.abs(fit.drift - 0.5)).toBeLessThan(4 * fit.seDrift);
  // se of the variance: 4 sqrt(2 / 4000) = 0.089.
  expect(Math.abs(fit.variance - 4)).toBeLessThan(0.36);
});

it('declines one increment, and refuses t that does not rise', () => {
  expect(
    fitWienerDrift([
      { t: [0, 1], y: [0, 1] },
      { t: [5], y: [2] },
    ]),
  ).toMatchObject({ declined: { got: '1' } });
  expect(() => fitWienerDrift([{ t: [0, 0], y: [0, 1] }])).toThrow('requires t that rises');
  expect(() => fitWienerDrift([{ t: [0], y: [] }])).toThrow('fitWienerDrift requires');
});
