import { describe, expect, it } from 'vitest';
import { given } from '#server/contract/mappings.ts';
import { objectTo, sayKind, saySize, toGiven } from './brought-files.ts';

it.each([
  [0, '0 bytes'],
  [1023, '1,023 bytes'],
  [1536, '1.5 KiB'],
  [8 * 1024 * 1024, '8 MiB'],
])('says %i bytes as %s', (bytes, words) => {
  expect(saySize(bytes).replace('\u00a0', ' ')).toBe(words);
});

it('tells the kind of a file by its name, and what cannot be read at all', () => {
  expect(sayKind('a.csv')).toBe('table as text');
  expect(sayKind('bus.log.GZ')).toBe('log, gzip');
  expect(sayKind('a')).toBe('form not told by its name');
  expect(objectTo({ name: 'a.csv', size: 10 })).toBeNull();
  expect(objectTo({ name: 'a.csv', size: 0 })).toBe('a.csv is empty.');
  expect(objectTo({ name: 'a.xlsx', size: 10 })).toMatch(/Save the sheet as CSV/);
  expect(objectTo({ name: 'a.zip', size: 10 })).toMatch(/Unpack it/);
});

describe('toGiven', () => {
  const file = new File(['x'], 'K-118.csv');
  it('says only what was typed, in the form of the call', () => {
    const nothing = { file, vehicle: ' ', date: '', start: '' };
    expect(toGiven(nothing, { zone: '', windowS: '' })).toEqual({ file: 'K-118.csv' });
    const all = toGiven(
      { file, vehicle: ' K-118 ', date: '2026-02-03', start: '2026-02-03T06:00' },
      { zone: 'Europe/Berlin', windowS: '5' },
    );
    expect(given.parse(all)).toEqual({
      file: 'K-118.csv',
      vehicle: 'K-118',
      date: '2026-02-03',
      zone: 'Europe/Berlin',
      start: '2026-02-03T06:00:00Z',
      window_s: 5,
    });
  });

  it('leaves out a window that no log can be cut into', () => {
    const one = { file, vehicle: '', date: '', start: '2026-02-03T06:00:07' };
    expect(toGiven(one, { zone: '', windowS: '0' })).toEqual({
      file: 'K-118.csv',
      start: '2026-02-03T06:00:07Z',
    });
  });
});
