import { expect, it } from 'vitest';
import { type Box, placeFree } from './place-free.ts';

const box = (left: number, top: number): Box => ({ left, top, right: left + 10, bottom: top + 10 });
const bounds = { left: 0, top: 0, right: 100, bottom: 100 };

it('takes the first place that covers nothing, and keeps it', () => {
  const taken = [box(0, 0)];
  expect(placeFree([box(5, 5), box(10, 0), box(50, 50)], bounds, taken)).toEqual(box(10, 0));
  expect(placeFree([box(15, 5)], bounds, taken)).toBeNull();
});

it('does not leave the bounds', () => {
  expect(placeFree([box(95, 0), box(-1, 0), box(0, 91)], bounds, [])).toBeNull();
  expect(placeFree([box(90, 90)], bounds, [])).toEqual(box(90, 90));
});
