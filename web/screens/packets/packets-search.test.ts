import { expect, it } from 'vitest';
import { parsePacketsSearch } from './packets-search.ts';

it('keeps a state and a vehicle, and drops what is neither', () => {
  expect(parsePacketsSearch({ state: 'closed', vehicle: ' 00417 ' })).toEqual({
    state: 'closed',
    vehicle: '00417',
  });
  expect(parsePacketsSearch({ state: 'all', vehicle: '' })).toEqual({});
  expect(parsePacketsSearch({ vehicle: 'x'.repeat(65) })).toEqual({});
});
