import { describe, expect, it } from 'vitest';
import { parseSetUpSearch } from './set-up-search.ts';

describe('the address of the set-up files', () => {
  it.each([
    [{ kind: 'lives' }, { kind: 'lives' }],
    [{ kind: 'wheels' }, {}],
    [{ kind: ['lives'] }, {}],
    [{}, {}],
  ])('reads %j', (raw, search) => {
    expect(parseSetUpSearch(raw)).toEqual(search);
  });
});
