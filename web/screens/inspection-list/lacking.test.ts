import { expect, it } from 'vitest';
import { lacking, pickPart } from './lacking.ts';
import { patchSearch } from './list-search.ts';

it('chooses vehicles of one depot, of all, or without any', () => {
  const one = patchSearch({}, pickPart({}, 'depot', 'north'));
  expect(one).toEqual({ depot: 'north' });
  const none = patchSearch(one, pickPart(one, 'depot', lacking));
  expect(none).toEqual({ lacks: 'depot' });
  expect(patchSearch(none, pickPart(none, 'depot', ''))).toEqual({});
});

it('keeps what is chosen of the other', () => {
  const none = patchSearch({}, pickPart({}, 'depot', lacking));
  const both = patchSearch(none, pickPart(none, 'platform', lacking));
  expect(both).toEqual({ lacks: 'both' });
  expect(patchSearch(both, pickPart(both, 'depot', 'north'))).toEqual({ depot: 'north', lacks: 'platform' });
  expect(patchSearch(none, pickPart(none, 'platform', 'bus'))).toEqual({ platform: 'bus', lacks: 'depot' });
});
