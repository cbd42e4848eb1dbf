import { expect, it } from 'vitest';
import { expectLife } from '#server/engine/life/expect-life.ts';
import { chanceOfSuddenFailure } from './chance-of-sudden-failure.ts';

const life = expectLife(300_000);

// By hand: scale = 300,000 / Gamma(1 + 1/2.2) = 338,753 km; (150 / 338.753)^2.2 = 0.16659 and (155 / 338.753)^2.2 =
// 0.17905; 0.12 * (1 - exp(-0.01246)) = 0.001486.
it('runs as its note says', () => {
  expect(chanceOfSuddenFailure(life, 150_000, 5_000)).toBeCloseTo(0.001486, 5);
});

it('is 0 for no way ahead and reaches the share of sudden failures for an endless one', () => {
  expect(chanceOfSuddenFailure(life, 150_000, 0)).toBe(0);
  expect(chanceOfSuddenFailure(life, 150_000, 1e9)).toBeCloseTo(0.12, 12);
});

it('rises with the mileage of the converter and with the way ahead', () => {
  const byMileage = [0, 50_000, 150_000, 400_000].map((km) => chanceOfSuddenFailure(life, km, 5_000));
  expect(byMileage).toEqual([...byMileage].sort((a, b) => a - b));
  const byWay = [1_000, 5_000, 20_000].map((km) => chanceOfSuddenFailure(life, 100_000, km));
  expect(byWay).toEqual([...byWay].sort((a, b) => a - b));
});

it('counts a mileage below 0 as 0', () => {
  expect(chanceOfSuddenFailure(life, -20_000, 5_000)).toBe(chanceOfSuddenFailure(life, 0, 5_000));
});

// The mean of a Weibull life is what was asked for: the integral of its survival function, here by the trapezium rule.
it('has lives of the mean that was asked for', () => {
  const step = 500;
  let mean = 0;
  for (let km = 0; km < 2_000_000; km += step) {
    const survival = (at: number) => 1 - chanceOfSuddenFailure(life, 0, at) / 0.12;
    mean += (step * (survival(km) + survival(km + step))) / 2;
  }
  expect(mean / 300_000).toBeCloseTo(1, 3);
});

// By hand, shape 1: a constant hazard of 1 / 200,000 km; 0.12 * (1 - exp(-10,000 / 200,000)) = 0.0058525.
it('takes shape and scale as they were fitted', () => {
  const fitted = { shape: 1, scaleKm: 200_000 };
  expect(chanceOfSuddenFailure(fitted, 0, 10_000)).toBeCloseTo(0.0058525, 7);
  expect(chanceOfSuddenFailure(fitted, 300_000, 10_000)).toBeCloseTo(0.0058525, 7);
});

it('is 0 for a life that never ends', () => {
  expect(chanceOfSuddenFailure({ shape: 1, scaleKm: Number.POSITIVE_INFINITY }, 300_000, 10_000)).toBe(0);
});
