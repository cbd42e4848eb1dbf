import { expect, it } from 'vitest';
import { closeRequest } from '#server/contract/repair.ts';
import { readClose } from './read-close.ts';

const km = { distance: 'km', temperature: 'C' } as const;
const miles = { distance: 'mi', temperature: 'F' } as const;
const plain = { isReplaced: false, isOldUnknown: false, lacksCooler: false };

it('reads a job into what the contract takes', () => {
  const { input } = readClose(
    { outcome: 'no_fault_found', odometer_km: '371,250', calm_km: '4 000', reason: ' all steps passed ' },
    km,
    plain,
  );
  expect(closeRequest.parse({ version: 1, ...input })).toMatchObject({
    outcome: 'no_fault_found',
    odometer_km: 371_250,
    calm_km: 4000,
    reason: 'all steps passed',
  });
});

it('takes miles from who reads miles', () => {
  // 1 mi = 1.609344 km: 230,000 mi = 370,149.12 km
  expect(readClose({ outcome: 'repaired', odometer_km: '230,000' }, miles, plain).input?.odometer_km).toBe(
    370_149.1,
  );
  // 500 km are 310.7 mi; the bound in whole miles is still within the contract's.
  const { input } = readClose(
    { outcome: 'declined', odometer_km: '10', calm_km: '311', reason: 'owner' },
    miles,
    plain,
  );
  expect(input?.calm_km).toBeGreaterThanOrEqual(500);
});

it('asks how the old converter ended, and why a cooler that is due has no record', () => {
  const job = { isReplaced: true, isOldUnknown: true, lacksCooler: true };
  const { faults } = readClose({ outcome: 'repaired', odometer_km: '10' }, km, job);
  expect(Object.keys(faults ?? {})).toEqual(['ended', 'without_cooler']);
  const fields = {
    outcome: 'repaired',
    odometer_km: '371250',
    ended: 'failed',
    without_cooler: 'cooler comes on Monday',
    old_fitted_km: '120000',
  };
  expect(readClose(fields, km, job).faults).toEqual({ old_source: 'Choose one.' });
  expect(readClose({ ...fields, old_source: 'used' }, km, job).input).toMatchObject({
    ended: 'failed',
    without_cooler: 'cooler comes on Monday',
    old_converter: { fitted_km: 120_000, source: 'used' },
  });
});

it('wants a reason where the work was declined', () => {
  expect(readClose({ outcome: 'declined', odometer_km: '5' }, km, plain).faults).toHaveProperty('reason');
});
