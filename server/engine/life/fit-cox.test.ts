import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { had } from '#tests/published/had.ts';
import { fitCox } from './fit-cox.ts';

const life = (exit: number, event: boolean, ...covariates: number[]) => ({
  entry: 0,
  exit,
  event,
  count: 1,
  covariates,
});
const x = [0, 1, 1, 1, 0, 0];
const book = [9, 1, 1, 6, 6, 8].map((exit, i) => life(exit, i !== 2 && i !== 5, x[i] ?? 0));

it('runs as its note says', () => {
  const { terms } = had(fitCox(book, ['x'], 0.95));
  expect(terms).toMatchObject([{ coef: expect.closeTo(1.676857, 6), se: expect.closeTo(1.277616, 6) }]);
});

it('takes counts for as many tied lives', () => {
  const often = book.map((one) => ({ ...one, count: 100 }));
  const rows = Array.from({ length: 100 }, () => book).flat();
  const [few, many] = [had(fitCox(often, ['x'], 0.95)), had(fitCox(rows, ['x'], 0.95))];
  expect(few.terms[0]?.coef).toBeCloseTo(many.terms[0]?.coef ?? 0, 9);
  expect(few.loglik).toBeCloseTo(many.loglik, 6);
});

// 600 lives of a Weibull hazard times exp(0.7 a - 0.4 b), seen from an entry that nothing tells of: 5 standard errors.
it('recovers effects of lives with late entry, and tells them per unit', () => {
  const random = seededRandom(21);
  const lives = [];
  while (lives.length < 600) {
    const [a, b] = [random.normal(), random.normal()];
    const exit = 100 * (-Math.log(1 - random.uniform()) / Math.exp(0.7 * a - 0.4 * b)) ** (1 / 2);
    const entry = 80 * random.uniform();
    if (exit > entry)
      lives.push({ ...life(Math.min(exit, entry + 60), exit < entry + 60, a, 1000 * b + 5e6), entry });
  }
  const { terms } = had(fitCox(lives, ['a', 'b'], 0.95));
  for (const [i, truth] of [0.7, -0.0004].entries()) {
    const { coef = 0, se = 0 } = terms[i] ?? {};
    expect(Math.abs(coef - truth)).toBeLessThan(5 * se);
    expect(se / Math.abs(truth)).toBeLessThan(0.2);
  }
});

const declinedOf = (lives: Parameters<typeof fitCox>[0], names: string[]) => {
  const fit = fitCox(lives, names, 0.95);
  return 'declined' in fit ? fit.declined : null;
};

it('declines covariates that tell nothing, by name', () => {
  const lives = [1, 2, 3, 4, 5, 6].map((exit, i) => life(exit, i % 2 === 0, i % 3, 7, 2 * (i % 3) + 1));
  const only = (...columns: number[]) =>
    lives.map((one) => ({ ...one, covariates: columns.map((k) => one.covariates[k] ?? 0) }));
  expect(declinedOf(only(0, 1), ['load', 'heat'])?.reason).toBe('"heat" is the same in all lives');
  expect(declinedOf(only(0, 2), ['load', 'twice'])?.reason).toBe('"twice" is a combination of "load"');
  const apart = [life(5, true, 0), life(6, true, 0), { ...life(9, true, 1), entry: 7 }];
  expect(declinedOf(apart, ['late'])?.reason).toBe(
    '"late" does not differ among lives that were at risk together',
  );
});

it('declines covariates that put all failures apart, alone or together', () => {
  const alone = [1, 2, 3, 4].map((exit) => life(exit, true, 1, exit % 3));
  const running = [5, 6, 7].map((exit) => life(exit, false, 0, exit % 2));
  expect(declinedOf([...alone, ...running], ['rebuilt', 'load'])?.reason).toMatch(
    /^"rebuilt" puts all failures apart/,
  );
  const random = seededRandom(3);
  const rows = Array.from({ length: 60 }, () => [random.normal(), random.normal(), random.normal()] as const)
    .sort(([a, b], [c, d]) => c + d - a - b)
    .map((row, i) => life(i + 1, i < 30, ...row));
  expect(declinedOf(rows, ['a', 'b', 'noise'])?.reason).toMatch(/^"a" with "b" puts all failures apart/);
});

it('declines what is too little, and hazard ratios beyond all numbers', () => {
  expect(
    declinedOf(
      book.map((one) => ({ ...one, covariates: [] })),
      [],
    )?.reason,
  ).toBe('no covariates');
  expect(declinedOf([life(1, true, 1), life(2, false, 0)], ['x'])).toMatchObject({
    needed: 'at least 2 failures for 1 covariate',
    got: '1',
  });
  const tiny = book.map((one) => ({ ...one, covariates: one.covariates.map((c) => c * 1e-9) }));
  expect(declinedOf(tiny, ['x'])?.reason).toBe('one more unit of "x" changes the hazard beyond all numbers');
  expect(() => fitCox([{ ...life(1, true, 1), count: 1.5 }], ['x'], 0.95)).toThrow('fitCox requires');
  expect(() => fitCox(book, ['x', 'y'], 0.95)).toThrow('fitCox requires');
});
