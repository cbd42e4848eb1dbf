import { expect, it } from 'vitest';
import { groupBy } from './group-by.ts';

it('groups by a number, in the order given', () => {
  const rows = [7, 3, 7].map((vehicle, i) => ({ vehicle, i }));
  const groups = groupBy(rows, ({ vehicle }) => vehicle);
  expect([...groups.keys()]).toEqual([7, 3]);
  expect(groups.get(7)?.map(({ i }) => i)).toEqual([0, 2]);
});

it('has none for none', () => {
  expect(groupBy([], () => 1).size).toBe(0);
});
