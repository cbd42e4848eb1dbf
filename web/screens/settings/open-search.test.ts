import { expect, it } from 'vitest';
import { parseOpenSearch } from './open-search.ts';

it('reads the opened line of an address, and nothing else', () => {
  expect(parseOpenSearch({ open: ' north ', other: 'x' })).toEqual({ open: 'north' });
  expect(parseOpenSearch({ open: 7 })).toEqual({});
  expect(parseOpenSearch({ open: ' ' })).toEqual({});
});
