import { describe, expect, it } from 'vitest';
import { parseBringSearch } from './bring-search.ts';

describe('parseBringSearch', () => {
  it('keeps the name of a mapping and nothing else', () => {
    expect(parseBringSearch({ as: 'north depot', other: '1' })).toEqual({ as: 'north depot' });
    expect(parseBringSearch({ as: '' })).toEqual({});
    expect(parseBringSearch({ as: 'x'.repeat(65) })).toEqual({});
    expect(parseBringSearch({ as: ['a'] })).toEqual({});
  });
});
