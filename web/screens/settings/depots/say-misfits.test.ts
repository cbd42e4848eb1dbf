import { expect, it } from 'vitest';
import { sayMisfits } from './say-misfits.ts';

const misfit = {
  booking: 1,
  vehicle: 'A',
  day: '2026-03-04',
  from: '07:00',
  to: '10:00',
  bay: 2,
  why: 'no bay',
};

it('says how many bookings still fit', () => {
  expect(sayMisfits({ misfits: [], open: 0 })).toBe('No booking lies ahead here.');
  expect(sayMisfits({ misfits: [], open: 1 })).toBe('The one booking ahead still fits.');
  expect(sayMisfits({ misfits: [], open: 9 })).toBe('All 9 bookings ahead still fit.');
  expect(sayMisfits({ misfits: [misfit], open: 9 })).toBe('1 of 9 bookings ahead would no longer fit:');
  expect(sayMisfits({ misfits: [misfit, misfit], open: 2 })).toBe('Both bookings ahead would no longer fit:');
  expect(sayMisfits({ misfits: [misfit, misfit, misfit], open: 3 })).toContain('None of the 3');
  expect(sayMisfits({ misfits: [misfit], open: 1 })).toBe('The one booking ahead would no longer fit:');
});
