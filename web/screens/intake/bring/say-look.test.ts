import { describe, expect, it } from 'vitest';
import { formatThere, sayCounts, sayForm, sayVehicles, sayWindows } from './say-look.ts';

const seen = { lines: 412, good: 412, bad: 0, lacks: [], whole: true, format: 'csv', mapping: null } as const;

describe('sayCounts', () => {
  it.each([
    [{}, 'All 412 rows would be stored.'],
    [{ whole: false }, 'All 412 rows looked at would be stored.'],
    [{ good: 1406, bad: 6, lines: 1412 }, '1,406 of 1,412 rows would be stored, 6 refused.'],
    [{ lines: 1, good: 1 }, 'The one row would be stored.'],
    [{ lines: 0, good: 0 }, 'There is no row in it.'],
    [{ format: 'can' as const }, 'All 412 windows would be stored.'],
    [{ lacks: [{ field: 'zone', message: 'x' }] }, 'No row can be read yet: 1 thing is still lacking.'],
  ])('says of %o: %s', (change, words) => {
    expect(sayCounts({ ...seen, ...change, lacks: 'lacks' in change ? (change.lacks ?? []) : [] })).toBe(
      words,
    );
  });
});

it('names vehicles, and those that would be made', () => {
  const one = (vehicle: string, known: boolean) => ({ vehicle, readings: 2, known });
  expect(sayVehicles({ vehicles: [], vehicles_total: 0 })).toBe('');
  expect(sayVehicles({ vehicles: [one('A', true)], vehicles_total: 1 })).toBe('Vehicle A.');
  expect(sayVehicles({ vehicles: [one('A', true), one('B', false)], vehicles_total: 2 })).toBe(
    '2 vehicles: A, B. Not known here yet and made at first contact: B.',
  );
});

it('says what a file is, and that some are none', () => {
  const file = { format: 'csv', gzip: false, own_form: false, whole: true, mapping: null } as const;
  expect(sayForm(file)).toBe('Nothing that is read here.');
  expect(sayForm({ ...file, own_form: true })).toBe(
    'A table as text in our own form: its columns have our names.',
  );
  expect(sayForm({ ...file, format: 'can', gzip: true, whole: false })).toBe(
    'A log of a CAN bus, packed with gzip. Only its beginning was looked at.',
  );
});

it('counts windows', () => {
  expect(sayWindows({ steady_lockup: 0, not: 0, without: 0 })).toBe('No window could be made.');
  expect(sayWindows({ steady_lockup: 74, not: 31, without: 15 })).toBe(
    '120 windows: 74 with steady lockup, 31 without it, 15 that made no reading.',
  );
  expect(sayWindows({ steady_lockup: 1, not: 0, without: 0 })).toBe('1 window: 1 with steady lockup.');
});

it('shows the clock of a zone where the browser knows the zone', () => {
  expect(formatThere('2026-02-03T05:00:10Z', 'Europe/Berlin')).toBe('3 Feb, 06:00:10');
  expect(formatThere('2026-02-03T05:00:10Z', 'UTC')).toBeNull();
  expect(formatThere('2026-02-03T05:00:10Z', 'Nowhere/Town')).toBeNull();
});
