import fc from 'fast-check';
import { expect, it } from 'vitest';
import { measureKendall } from './measure-kendall.ts';

it('runs as its note says', () => {
  expect(measureKendall([1, 2, 3, 4], [1, 3, 2, 4])).toMatchObject({ s: 4, tauB: expect.closeTo(2 / 3, 12) });
});

it('counts the pairs that counting one by one gives, ties in both', () => {
  const series = fc.array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 })), {
    minLength: 3,
    maxLength: 40,
  });
  fc.assert(
    fc.property(series, (points) => {
      const answer = measureKendall(
        points.map(([x]) => x),
        points.map(([, y]) => y),
      );
      let [concordant, discordant] = [0, 0];
      points.forEach(([x, y], i) => {
        for (const [u, v] of points.slice(i + 1)) {
          const sign = Math.sign(u - x) * Math.sign(v - y);
          if (sign > 0) concordant++;
          if (sign < 0) discordant++;
        }
      });
      if ('declined' in answer) {
        expect(concordant + discordant).toBe(0);
        return;
      }
      expect(answer).toMatchObject({ concordant, discordant, s: concordant - discordant });
    }),
    { seed: 9, numRuns: 300 },
  );
});

it('declines equal values and too few points', () => {
  expect(measureKendall([1, 2], [1, 2])).toMatchObject({ declined: { reason: 'too few points' } });
  expect(measureKendall([1, 1, 1], [1, 2, 3])).toMatchObject({ declined: { reason: 'all x equal' } });
  expect(measureKendall([1, 2, 3], [5, 5, 5])).toMatchObject({ declined: { reason: 'all y equal' } });
  expect(() => measureKendall([1], [])).toThrow('measureKendall requires');
});
