import { describe, expect, it } from 'vitest';
import { Random } from './random.ts';

describe('Random', () => {
  it('gives the known answers of xoshiro128** for the state 1, 2, 3, 4', () => {
    // Reference outputs of xoshiro128** 1.1 by Blackman and Vigna, as in the tests of the Rust crate rand_xoshiro.
    const random = new Random([1, 2, 3, 4]);
    expect(Array.from({ length: 10 }, () => random.uint32())).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('repeats itself for one seed and differs for another', () => {
    const draw = (seed: string) => {
      const random = new Random(seed);
      return Array.from({ length: 20 }, () => random.uint32());
    };
    expect(draw('a')).toEqual(draw('a'));
    expect(draw('a')).not.toEqual(draw('b'));
  });

  it('draws normal numbers with the mean and spread asked for', () => {
    const random = new Random('normal');
    const n = 40_000;
    const values = Array.from({ length: n }, () => random.normal(5, 2));
    const mean = values.reduce((sum, value) => sum + value, 0) / n;
    const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1));
    // Five standard errors: sd / sqrt(n) of the mean, sd / sqrt(2 n) of the spread.
    expect(Math.abs(mean - 5)).toBeLessThan((5 * 2) / Math.sqrt(n));
    expect(Math.abs(sd - 2)).toBeLessThan((5 * 2) / Math.sqrt(2 * n));
  });

  it('keeps every element when it shuffles', () => {
    const list = Array.from({ length: 50 }, (_, i) => i);
    const shuffled = new Random('cards').shuffle(list);
    expect(shuffled).not.toEqual(list);
    expect(shuffled.toSorted((one, other) => one - other)).toEqual(list);
  });
});
