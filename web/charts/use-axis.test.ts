import { expect, it } from 'vitest';
import { metricUnits } from '#web/format/units.ts';
import { mileageAxis, plainAxis } from './use-axis.ts';

it('says mileages in thousands on ticks, and what is seen or estimated in the unit of the reader', () => {
  const km = mileageAxis(metricUnits);
  expect([km.sayTick(1_000_000, 1000), km.sayTick(1500, 500), km.sayTick(1250, 50)]).toEqual([
    '1,000',
    '1.5',
    '1.25',
  ]);
  const miles = mileageAxis({ distance: 'mi', temperature: 'F' });
  expect(miles.sayExact(160_934.4)).toBe('100,000\u00a0mi');
  expect(miles.sayRange(16_093.44, 32_186.88)).toBe('10,000 to 20,000\u00a0mi');
});

it('leaves data of another unit as they are', () => {
  const hours = plainAxis('hours');
  expect([hours.one, hours.sayTick(0.25, 1), hours.sayExact(12_345), hours.sayRange(1.23456, 2)]).toEqual([
    1,
    '0.25',
    '12,345',
    '1.23 to 2',
  ]);
});
