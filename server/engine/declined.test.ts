import { expect, it } from 'vitest';
import { decline, isDeclined } from './declined.ts';

it('says why there is no answer, what was needed and what there was', () => {
  expect(decline('too few points', 'at least 3', '2')).toEqual({
    declined: { reason: 'too few points', needed: 'at least 3', got: '2' },
  });
});

it('tells a declined answer from one that was had', () => {
  expect(isDeclined(decline('too few points', 'at least 3', '2'))).toBe(true);
  expect([{ slope: 1 }, 3, null, undefined, [], 'declined'].map(isDeclined)).toEqual(Array(6).fill(false));
});
