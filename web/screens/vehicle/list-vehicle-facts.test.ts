import { expect, it } from 'vitest';
import { makeDetail } from '#tests/browser/fixtures/vehicle-answers.ts';
import { vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { metricUnits } from '#web/format/units.ts';
import { listVehicleFacts } from './list-vehicle-facts.ts';

const factsOf = (vin: string | null) => {
  const [one] = Object.values(vehicleCases);
  if (one === undefined) throw new Error('there is no case');
  const facts = listVehicleFacts({ ...makeDetail(one), vin }, 5000, metricUnits, new Date());
  return facts.filter(({ name }) => name === 'VIN');
};

it('shows the VIN where it is known, and what may be wrong with it', () => {
  expect(factsOf(null)).toEqual([]);
  expect(factsOf('1M8GDM9AXKP042788')).toEqual([{ name: 'VIN', value: '1M8GDM9AXKP042788' }]);
  expect(factsOf('1M8GDM9AXKP04278')).toEqual([
    { name: 'VIN', value: '1M8GDM9AXKP04278', note: 'has 16 characters; a VIN has 17.' },
  ]);
});
