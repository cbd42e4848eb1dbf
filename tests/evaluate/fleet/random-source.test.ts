import { expect, it } from 'vitest';
import { RandomSource } from './random-source.ts';

const COUNT = 200_000;

const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

it('repeats itself from the same seed and not from a neighbour', () => {
  const list = (seed: string) => {
    const random = new RandomSource(seed);
    return Array.from({ length: 20 }, () => random.uniform());
  };
  expect(list('a/1')).toEqual(list('a/1'));
  expect(new Set([...list('a/1'), ...list('a/2'), ...list('b/1')]).size).toBe(60);
});

it('draws numbers of the mean and variance that they should have', () => {
  const random = new RandomSource('moments');
  const uniform = Array.from({ length: COUNT }, () => random.uniform());
  const normal = Array.from({ length: COUNT }, () => random.normal());
  // Standard errors: 0.0006 for the uniform mean, 0.0022 and 0.0032 for mean and variance of the normal.
  expect(Math.abs(mean(uniform) - 0.5)).toBeLessThan(0.003);
  expect(Math.abs(mean(normal))).toBeLessThan(0.01);
  expect(Math.abs(mean(normal.map((z) => z * z)) - 1)).toBeLessThan(0.015);
});

it('draws heavier tails of variance 1', () => {
  const random = new RandomSource('tails');
  const values = Array.from({ length: COUNT }, () => random.heavyTailed());
  // t with 4 degrees of freedom has no fourth moment, so its sample variance settles slowly.
  expect(Math.abs(mean(values.map((value) => value * value)) - 1)).toBeLessThan(0.1);
  // P(|t4| > 4 * sqrt 2) = 0.0048 (closed form of the distribution function); of a normal 0.00006.
  const far = values.filter((value) => Math.abs(value) > 4).length / COUNT;
  expect(far).toBeGreaterThan(0.003);
  expect(far).toBeLessThan(0.007);
});
