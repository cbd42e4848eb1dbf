import { expect, it } from 'vitest';
import { formatPercent } from './format-percent.ts';

it.each([
  [0, '0 %'],
  [0.003, '< 1 %'],
  [0.126, '13 %'],
  [0.994, '> 99 %'],
  [1, '100 %'],
  [null, '–'],
])('never rounds a chance of %s to a certainty: %s', (share, text) =>
  expect(formatPercent(share)).toBe(text),
);
