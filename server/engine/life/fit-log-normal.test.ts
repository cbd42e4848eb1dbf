import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { had } from '#tests/published/had.ts';
import { fitLogNormal } from './fit-log-normal.ts';

const failed = (exit: number, entry = 0) => ({ entry, exit, event: true, count: 1 });

it('runs as its note says', () => {
  const { mu, sigma } = had(fitLogNormal([failed(1), failed(Math.E)], 0.95));
  expect([mu, sigma]).toEqual([expect.closeTo(0.5, 10), expect.closeTo(0.5, 10)]);
});

// Without censoring mean and plain standard deviation of the logarithms, with the textbook standard errors.
it('is mean and standard deviation of log life where all failed', () => {
  const logs = [1, 2, 4, 7];
  const fit = had(
    fitLogNormal(
      logs.map((log) => failed(Math.exp(log))),
      0.95,
    ),
  );
  const sigma = Math.sqrt((6.25 + 2.25 + 0.25 + 12.25) / 4);
  expect(fit).toMatchObject({
    mu: expect.closeTo(3.5, 10),
    sigma: expect.closeTo(sigma, 10),
    seMu: expect.closeTo(sigma / 2, 8),
    seSigma: expect.closeTo(sigma / Math.sqrt(8), 8),
    b50: { estimate: expect.closeTo(Math.exp(3.5), 8) },
  });
});

// 400 lives of mu 4 and sigma 0.5, watched for a while from an entry that nothing tells of: 5 standard errors.
it('recovers lives that were only seen from their entry on', () => {
  const random = seededRandom(12);
  const lives = [];
  while (lives.length < 400) {
    const exit = Math.exp(4 + 0.5 * random.normal());
    const entry = 60 * random.uniform();
    if (exit > entry)
      lives.push({ entry, exit: Math.min(exit, entry + 40), event: exit < entry + 40, count: 1 });
  }
  const fit = had(fitLogNormal(lives, 0.95));
  expect(Math.abs(fit.mu - 4)).toBeLessThan(5 * fit.seMu);
  expect(Math.abs(fit.sigma - 0.5)).toBeLessThan(5 * fit.seSigma);
  expect(fit.seMu).toBeLessThan(0.1);
});

it('declines late entries that failed at once', () => {
  const lives = [failed(10, 9.99), failed(20, 19.99), { ...failed(300, 4), event: false }];
  expect(fitLogNormal(lives, 0.95)).toMatchObject({ declined: { reason: 'the fit has no maximum' } });
  expect(fitLogNormal([failed(3)], 0.95)).toMatchObject({ declined: { reason: 'too few failures' } });
});
