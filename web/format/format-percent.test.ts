import { expect, it } from 'vitest';
import { formatPercent } from './format-percent.ts';

it.each([
  [0, '0\u00a0%'],
  [0.003, '<\u00a01\u00a0%'],
  [0.126, '13\u00a0%'],
  [0.994, '>\u00a099\u00a0%'],
  [1, '100\u00a0%'],
  [null, '–'],
])('never rounds a chance of %s to a certainty: %s', (share, text) =>
  expect(formatPercent(share)).toBe(text),
);
