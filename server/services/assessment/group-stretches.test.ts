import { expect, it } from 'vitest';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { groupStretches } from './group-stretches.ts';

it('groups by vehicle, in the order given', () => {
  const record = (vehicle: number, i: number) => ({ ...makeStretch(i, 20), vehicle });
  const groups = groupStretches([record(7, 0), record(3, 0), record(7, 1)]);
  expect([...groups.keys()]).toEqual([7, 3]);
  expect(groups.get(7)).toMatchObject([makeStretch(0, 20), makeStretch(1, 20)]);
});

it('has none for none', () => {
  expect(groupStretches([]).size).toBe(0);
});
