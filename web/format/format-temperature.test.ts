import { expect, it } from 'vitest';
import { formatTemperature } from './format-temperature.ts';
import { metricUnits } from './units.ts';

it('shows whole degrees in the reader’s unit', () => {
  expect(formatTemperature(85, metricUnits)).toBe('85\u00a0°C');
  // NIST SP 811, B.8: t/°F = 1.8 t/°C + 32
  expect(formatTemperature(100, { ...metricUnits, temperature: 'F' })).toBe('212\u00a0°F');
  expect(formatTemperature(null, metricUnits)).toBe('–');
});
