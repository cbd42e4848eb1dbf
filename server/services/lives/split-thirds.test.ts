import { expect, it } from 'vitest';
import { splitThirds } from './split-thirds.ts';

it('splits values into thirds of as many lives, whatever their order', () => {
  const { names, thirds } = splitThirds([60, 10, 50, 20, 40, 30]);
  expect(names).toEqual([
    'high third',
    'low third',
    'high third',
    'low third',
    'middle third',
    'middle third',
  ]);
  expect(thirds).toEqual([
    { name: 'low third', from: 10, to: 20 },
    { name: 'middle third', from: 30, to: 40 },
    { name: 'high third', from: 50, to: 60 },
  ]);
});

it('keeps equal values together and values that are not known apart', () => {
  const { names, thirds } = splitThirds([0, 0, 0, 0, null, 5]);
  expect(names).toEqual(['low third', 'low third', 'low third', 'low third', null, 'high third']);
  expect(thirds.map(({ name }) => name)).toEqual(['low third', 'high third']);
  expect(splitThirds([null])).toEqual({ names: [null], thirds: [] });
});
