import { expect, it } from 'vitest';
import { inksOfModes, orderModes } from './mode-ink.ts';

const curve = (mode: string, events: number) => ({ mode, events, points: [] });

it('orders modes by their failures in all groups, alike ones by name', () => {
  const groups = [
    { cumulative_incidence: [curve('worn', 5), curve('seal', 1), curve('burnt', 2)] },
    { cumulative_incidence: [curve('seal', 6), curve('broken', 2)] },
  ];
  expect(orderModes(groups)).toEqual(['seal', 'worn', 'broken', 'burnt']);
});

it('keeps the ink of a mode whatever else is drawn', () => {
  const order = ['seal', 'worn', 'broken', 'burnt'];
  expect(inksOfModes(['worn', 'seal'], order)).toEqual([1, 0]);
  expect(inksOfModes(['burnt'], order)).toEqual([3]);
});

it('gives rarer modes what is left, never one ink twice', () => {
  const order = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];
  expect(inksOfModes(['h', 'b', 'g', 'f', 'a', 'c'], order)).toEqual([3, 1, 4, 5, 0, 2]);
});
