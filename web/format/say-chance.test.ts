import { expect, it } from 'vitest';
import { sayChance } from './say-chance.ts';

it.each([
  [1, 'more often than not'],
  [0.51, 'more often than not'],
  [0.5, '1 time in 2'],
  [0.3, '1 time in 3'],
  [0.05, '1 time in 20'],
  [0.0049, '1 time in 200'],
  [0.00037, '1 time in 2,700'],
  [0.0001, '1 time in 10,000'],
  [0.00001, 'less than 1 time in 10,000'],
  [0, 'less than 1 time in 10,000'],
])('says how often chance alone would show a p value of %d', (p, words) => {
  expect(sayChance(p)).toBe(words);
});
