import { expect, it } from 'vitest';
import { formatLifeNumber, formatLifeRange } from './format-life.ts';
import { metricUnits } from './units.ts';

it('says a mileage by which a share fails to two figures', () => {
  expect(formatLifeNumber(57_321, metricUnits)).toBe('57,000');
  expect(formatLifeRange(9_870, 331_000, metricUnits).replaceAll('\u00a0', ' ')).toBe('9,900 to 330,000 km');
});

it('does not write out a bound that bounds nothing', () => {
  expect(formatLifeNumber(6.6e60, metricUnits)).toBe('over 10,000,000');
  expect(formatLifeRange(0.2, 6.6e60, { distance: 'mi', temperature: 'F' }).replaceAll('\u00a0', ' ')).toBe(
    '0 to over 6,200,000 mi',
  );
});
