import { expect, it } from 'vitest';
import { middleOfSorted } from './middle-of-sorted.ts';

it('runs as its note says', () => {
  expect(middleOfSorted([1, 3, 9, 99], 3)).toBe(3);
});

it('takes the mean of the two middle ones of an even count', () => {
  expect(middleOfSorted([1, 3, 9, 99], 4)).toBe(6);
  expect(middleOfSorted([1, 3], 2)).toBe(2);
});

it('is no number where none count', () => {
  expect(middleOfSorted([1, 3], 0)).toBeNaN();
});
