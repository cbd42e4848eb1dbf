import { describe, expect, it } from 'vitest';
import { parseVehicleSearch, patchVehicleSearch } from './vehicle-search.ts';

describe('parseVehicleSearch', () => {
  it('reads range, band and life from plain text', () => {
    expect(parseVehicleSearch({ from: '351000.4', to: '371204', band: '70-85', life: '2' })).toEqual({
      from: 351000,
      to: 371204,
      band: '70-85',
      life: 2,
    });
  });

  it.each([
    { from: '5', to: '4' },
    { from: '5' },
    { from: '', to: '' },
    { from: '-1', to: 'x' },
    { from: '0', to: '1e99' },
    { band: '<b>' },
    { band: 70 },
    { life: '0' },
    { life: 'NaN' },
  ])('drops what is not sound: %o', (raw) => {
    expect(parseVehicleSearch(raw)).toEqual({});
  });

  it('keeps the rest when one part is taken out', () => {
    expect(patchVehicleSearch({ from: 1, to: 9, band: '70-85' }, { from: undefined, to: undefined })).toEqual(
      {
        band: '70-85',
      },
    );
  });
});
