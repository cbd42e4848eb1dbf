import { expect, it } from 'vitest';
import { listMonths, listWeeks } from './list-months.ts';

it('goes on over the end of the year', () => {
  expect(listMonths('2026-11-26', 4)).toEqual(['2026-11', '2026-12', '2027-01', '2027-02']);
});

it('lays the days of a month out by weeks that begin on Monday', () => {
  const november = listWeeks('2026-11');
  expect(november[0]).toEqual([null, null, null, null, null, null, '2026-11-01']);
  expect(november.at(-1)).toEqual(['2026-11-30', null, null, null, null, null, null]);
  expect(listWeeks('2027-02')).toHaveLength(4);
  expect(listWeeks('2028-02').flat().filter(Boolean)).toHaveLength(29);
});
