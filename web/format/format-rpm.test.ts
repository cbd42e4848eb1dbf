import { expect, it } from 'vitest';
import { formatDrift, formatRpm } from './format-rpm.ts';
import { metricUnits } from './units.ts';

const miles = { ...metricUnits, distance: 'mi' } as const;

it('shows slip in whole rpm', () => {
  expect(formatRpm(96.4)).toBe('96\u00a0rpm');
  expect(formatRpm(-0.2)).toBe('0\u00a0rpm');
  expect(formatRpm(-3.6)).toBe('−4\u00a0rpm');
  expect(formatRpm(null)).toBe('–');
});

it.each([
  [7.29, '+7.3'],
  [18.6, '+19'],
  [0.42, '+0.4'],
  [-0.42, '−0.4'],
  [0.01, '0.0'],
  [-0.01, '0.0'],
])('shows a drift of %d with its sign as %s', (rate, text) =>
  expect(formatDrift(rate, metricUnits)).toBe(text),
);

it('shows more drift per 1,000 miles than per 1,000 km', () => expect(formatDrift(5, miles)).toBe('+8.0'));
