import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { isCarried, measureScatter } from './measure-scatter.ts';

const { normal } = seededRandom(3);
const makeWeeks = (n: number, sd: number, stepAt: number, vehiclesAt = (_: number) => 20) =>
  Array.from({ length: n }, (_, i) => ({
    week: i,
    movementRpm: sd * normal() + (i >= stepAt ? 25 : 0),
    vehicles: vehiclesAt(i),
  }));

// A robust sd of 300 differences of neighbours has a standard error of about 8 %: three of them are allowed.
it('is that of the weeks about their neighbours, whatever step lies between', () => {
  const errors = measureScatter(makeWeeks(300, 0.5, 120));
  for (const error of errors) expect(Math.abs((error ?? 0) / 0.5 - 1)).toBeLessThan(0.24);
});

it('is larger by the root where fewer vehicles tell', () => {
  const errors = measureScatter(makeWeeks(60, 0.5, 99, (i) => (i === 30 ? 5 : 20)));
  expect((errors[30] ?? 0) / (errors[0] ?? 1)).toBeCloseTo(2);
});

it('is not known of a week that took the figure of the one before, nor from a handful of weeks', () => {
  const weeks = makeWeeks(60, 0.5, 99);
  const carried = weeks.map((week, i) =>
    i === 31 ? { ...week, movementRpm: weeks[30]?.movementRpm ?? 0 } : week,
  );
  expect(isCarried(carried, 31)).toBe(true);
  expect(measureScatter(carried)[31]).toBe(null);
  expect(measureScatter(makeWeeks(6, 0.5, 99))).toEqual(Array.from({ length: 6 }, () => null));
});
