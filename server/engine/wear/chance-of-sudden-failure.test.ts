import { expect, it } from 'vitest';
import { chanceOfSuddenFailure } from './chance-of-sudden-failure.ts';

// By hand: scale = 300,000 / Gamma(1 + 1/2.2) = 338,753 km; (150 / 338.753)^2.2 = 0.16659 and (155 / 338.753)^2.2 =
// 0.17905; 0.12 * (1 - exp(-0.01246)) = 0.001486.
it('runs as its note says', () => {
  expect(chanceOfSuddenFailure(300_000, 150_000, 5_000)).toBeCloseTo(0.001486, 5);
});

it('is 0 for no way ahead and reaches the share of sudden failures for an endless one', () => {
  expect(chanceOfSuddenFailure(300_000, 150_000, 0)).toBe(0);
  expect(chanceOfSuddenFailure(300_000, 150_000, 1e9)).toBeCloseTo(0.12, 12);
});

it('rises with the mileage of the converter and with the way ahead', () => {
  const byMileage = [0, 50_000, 150_000, 400_000].map((km) => chanceOfSuddenFailure(300_000, km, 5_000));
  expect(byMileage).toEqual([...byMileage].sort((a, b) => a - b));
  const byWay = [1_000, 5_000, 20_000].map((km) => chanceOfSuddenFailure(300_000, 100_000, km));
  expect(byWay).toEqual([...byWay].sort((a, b) => a - b));
});

it('counts a mileage below 0 as 0', () => {
  expect(chanceOfSuddenFailure(300_000, -20_000, 5_000)).toBe(chanceOfSuddenFailure(300_000, 0, 5_000));
});

// The mean of a Weibull life is what was asked for: the integral of its survival function, here by the trapezium rule.
it('has lives of the mean that was asked for', () => {
  const step = 500;
  let mean = 0;
  for (let km = 0; km < 2_000_000; km += step) {
    const survival = (at: number) => 1 - chanceOfSuddenFailure(300_000, 0, at) / 0.12;
    mean += (step * (survival(km) + survival(km + step))) / 2;
  }
  expect(mean / 300_000).toBeCloseTo(1, 3);
});
