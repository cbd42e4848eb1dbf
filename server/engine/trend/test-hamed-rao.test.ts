import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { testHamedRao } from './test-hamed-rao.ts';
import { testMannKendall } from './test-mann-kendall.ts';

it('is the plain test where no lag counts', () => {
  const y = [1, 2, 3, 5, 4, 6];
  const [plain, test] = [testMannKendall({ y }), testHamedRao({ y })];
  expect(test).toMatchObject({ inflation: 1, lags: [] });
  if ('declined' in plain || 'declined' in test) throw new Error('declined');
  expect(test.p).toBe(plain.p);
});

it('raises fewer false alarms than the plain test, and most of all with few lags, on a series whose neighbours go together', () => {
  const random = seededRandom(31);
  let [plain, corrected, few] = [0, 0, 0];
  for (let run = 0; run < 300; run++) {
    let value = 0;
    const y = Array.from({ length: 60 }, () => {
      value = 0.5 * value + random.normal();
      return value;
    });
    const [one, other] = [testMannKendall({ y }), testHamedRao({ y })];
    const third = testHamedRao({ y, mostLags: 3 });
    if (!('declined' in one) && one.p < 0.05) plain++;
    if (!('declined' in other) && other.p < 0.05) corrected++;
    if (!('declined' in third) && third.p < 0.05) few++;
  }
  expect(plain / 300).toBeGreaterThan(0.15);
  expect(corrected).toBeLessThan(plain);
  expect(few / 300).toBeLessThan(0.17);
});

it('declines as its parts do, and where no variance is left', () => {
  expect(testHamedRao({ y: [1, 2] })).toMatchObject({ declined: { reason: 'too few points' } });
  const wave = Array.from({ length: 40 }, (_, i) => (i % 2 === 0 ? 10 : -10) + i * 0.01);
  expect(testHamedRao({ y: wave, mostLags: 1 })).toMatchObject({ declined: { needed: 'n / n* above 0' } });
  expect(() => testHamedRao({ y: [], alpha: 5 })).toThrow('testHamedRao requires alpha');
});
