import { expect, it } from 'vitest';
import { dayOf } from './calendar.ts';
import { depots } from './depots.ts';
import { ambientC, createWeather } from './weather.ts';

const day = (text: string) => dayOf(Date.parse(text));

it.each(depots)('is warm in July and cold in January at $id', (depot) => {
  const weather = createWeather(depot, day('2025-01-01'), day('2025-12-31'), 'seed');
  const mean = (from: string, days: number) =>
    Array.from({ length: days }, (_, i) => weather.meanC(day(from) + i)).reduce((sum, c) => sum + c, 0) /
    days;
  const swing = mean('2025-07-01', 31) - mean('2025-01-01', 31);
  // Two amplitudes, less what the monthly mean smooths; the monthly mean of the weather itself strays by about 1 K.
  expect(Math.abs(swing - 2 * depot.climate.seasonC)).toBeLessThan(5);
});

it('is warmest in the afternoon', () => {
  const hours = Array.from({ length: 24 }, (_, hour) => ambientC(10, hour));
  expect(hours.indexOf(Math.max(...hours))).toBe(15);
});
