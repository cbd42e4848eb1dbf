import { describe, expect, it } from 'vitest';
import { formatKm, formatKmRange, formatOdometer, formatThousands } from './format-km.ts';
import { metricUnits } from './units.ts';

const miles = { ...metricUnits, distance: 'mi' } as const;

describe('an estimated distance', () => {
  it.each([
    [1903.27, '1,900\u00a0km'],
    [5249, '5,200\u00a0km'],
    [87_421, '87,000\u00a0km'],
    [314.6, '310\u00a0km'],
    [42.4, '42\u00a0km'],
    [3.2, '3\u00a0km'],
    [0, '0\u00a0km'],
    [999.6, '1,000\u00a0km'],
  ])('of %d km has two figures: %s', (km, text) => expect(formatKm(km, metricUnits)).toBe(text));

  it('is converted before it is rounded', () => expect(formatKm(1609.344, miles)).toBe('1,000\u00a0mi'));
  it('that is missing is a dash, never a zero', () => expect(formatKm(null, metricUnits)).toBe('–'));
});

describe('an interval', () => {
  it('names its unit once', () =>
    expect(formatKmRange(1903, 5210, metricUnits)).toBe('1,900 to 5,200\u00a0km'));
  it('without an upper end says over', () =>
    expect(formatKmRange(8000, null, metricUnits)).toBe('over 8,000\u00a0km'));
  it('without a lower end says up to', () =>
    expect(formatKmRange(null, 900, metricUnits)).toBe('up to 900\u00a0km'));
  it('whose ends round to the same is one figure', () =>
    expect(formatKmRange(1901, 1904, metricUnits)).toBe('1,900\u00a0km'));
});

it('shows an odometer to the last whole unit', () => {
  expect(formatOdometer(312_407.4, metricUnits)).toBe('312,407\u00a0km');
  expect(formatOdometer(312_407.4, miles)).toBe('194,121\u00a0mi');
});

it('shows axis ticks in thousands of the reader’s unit', () => {
  expect(formatThousands(320_000, metricUnits)).toBe('320');
  expect(formatThousands(160_934.4, miles)).toBe('100');
});
