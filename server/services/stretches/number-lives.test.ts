import { expect, it } from 'vitest';
import { numberLives } from './number-lives.ts';

const life = (fittedKm: number, removedKm: number | null = null) => ({ fittedKm, removedKm });

it('counts everything as life 1 where none is registered', () => {
  expect([0, 50_000, 900_000].map(numberLives([]))).toEqual([1, 1, 1]);
});

it('numbers registered lives from 1, in order of mileage whatever the order given', () => {
  const numberOf = numberLives([life(200_000), life(0, 200_000)]);
  expect([0, 199_999, 200_000, 300_000].map(numberOf)).toEqual([1, 1, 2, 2]);
});

it('counts kilometres before the first fitting as life 0', () => {
  const numberOf = numberLives([life(120_000)]);
  expect([100_000, 119_999.9, 120_000].map(numberOf)).toEqual([0, 0, 1]);
});

it('gives the next number to kilometres after a removal that no fitting followed', () => {
  const numberOf = numberLives([life(0, 150_000)]);
  expect([149_999, 150_000, 180_000].map(numberOf)).toEqual([1, 2, 2]);
});

it('begins a life at its fitting where nobody reported the removal before it', () => {
  expect([199_999, 200_000].map(numberLives([life(0), life(200_000)]))).toEqual([1, 2]);
});
