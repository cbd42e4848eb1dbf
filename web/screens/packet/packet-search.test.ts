import { expect, it } from 'vitest';
import { parsePacketSearch } from './packet-search.ts';

it('keeps a step that there is, and drops any other', () => {
  expect(parsePacketSearch({ step: 'pan', more: 1 })).toEqual({ step: 'pan' });
  expect(parsePacketSearch({ step: 'pans' })).toEqual({});
  expect(parsePacketSearch({ step: 3 })).toEqual({});
});
