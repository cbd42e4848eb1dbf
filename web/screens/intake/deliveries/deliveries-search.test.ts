import { expect, it } from 'vitest';
import { parseDeliveriesSearch, patchDeliveriesSearch } from './deliveries-search.ts';

const open = '3d5e0b6e-93f2-4c7e-8d8a-4a3b6f0c1d2e';

it('takes what is sound from an address and drops the rest', () => {
  const sound = { span: 'days', sender: 'key:a1', q: 'yard', refused: true, offset: 50, open };
  expect(parseDeliveriesSearch({ ...sound, incomplete: 'true', offset: '50' })).toEqual({
    ...sound,
    incomplete: true,
  });
  expect(parseDeliveriesSearch({ span: 'weeks', sender: ' ', refused: 1, offset: -3, open: 'x' })).toEqual(
    {},
  );
});

it('goes back to the newest when a filter changes, and stays when one is opened', () => {
  const search = { q: 'yard', offset: 50, open };
  expect(patchDeliveriesSearch(search, { q: 'north' })).toEqual({ q: 'north' });
  expect(patchDeliveriesSearch(search, { open: undefined })).toEqual({ q: 'yard', offset: 50 });
});
