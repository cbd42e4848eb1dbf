import { describe, expect, it } from 'vitest';
import type { Outlook } from '#server/contract/ranking.ts';
import { buildLook } from './look.ts';
import { outlookLegend, outlookNumbers, outlookOption } from './outlook-option.ts';

const look = buildLook((name) => name, 'light');
const namesBayDays = (of: Outlook) => outlookLegend(of, look).some(({ words }) => words === 'free bay days');
const vehicle = (name: string, grade: 'hold' | 'book' | 'watch' = 'book', seen_to = false) => ({
  vehicle: name,
  grade,
  seen_to,
});
const outlook = (change: Partial<Outlook> = {}): Outlook => ({
  as_of: null,
  counts: { hold: 1, book: 2, watch: 1, steady: 0, unknown: 0 },
  overdue: [vehicle('P', 'hold')],
  weeks: [
    { week: '2026-03-02', expected: 0.8, vehicles: [], bay_days: 3 },
    {
      week: '2026-03-09',
      expected: 1.6,
      vehicles: [vehicle('A', 'watch'), vehicle('B', 'hold')],
      bay_days: 2,
    },
  ],
  ...change,
});

interface Series {
  name: string;
  type: string;
  data: unknown[];
}
const seriesOf = (of: Outlook) => outlookOption(of, { look }).series as unknown as Series[];
const named = (of: Outlook, name: string) => seriesOf(of).find((one) => one.name === name);

describe('the outlook drawing', () => {
  it('stacks one mark for each vehicle in its week, the worst grade lowest', () => {
    expect(named(outlook(), 'vehicles')?.data).toMatchObject([
      { name: 'P', value: [0, 0.5] },
      { name: 'B', value: [2, 0.5] },
      { name: 'A', value: [2, 1.5] },
    ]);
  });

  it('draws expected numbers and free bay days for the weeks, not for the past', () => {
    expect(named(outlook(), 'expected')?.data).toEqual([0, 0.8, 1.6]);
    expect(named(outlook(), 'free bay days')?.data).toEqual([null, 3, 2]);
  });

  it('heaps vehicles by grade where single marks would run into each other', () => {
    const many = Array.from({ length: 40 }, (_, i) => vehicle(`V${i}`, i < 10 ? 'hold' : 'watch'));
    const crowded = outlook({ weeks: [{ week: '2026-03-02', expected: 38, vehicles: many, bay_days: 30 }] });
    expect(named(crowded, 'vehicles')).toBe(undefined);
    expect(named(crowded, 'hold')?.data).toEqual([1, 10]);
    expect(named(crowded, 'watch')?.data).toEqual([0, 30]);
  });

  it('does not let plenty of bay days press the vehicles flat, and says where they are', () => {
    const plenty = outlook({
      weeks: [{ week: '2026-03-02', expected: 2, vehicles: [vehicle('A')], bay_days: 400 }],
    });
    const option = outlookOption(plenty, { look }) as unknown as { yAxis: { max: number; name: string } };
    expect(option.yAxis.max).toBeLessThan(10);
    expect(option.yAxis.name).toContain('off the scale there are up to 400 bay days');
    expect(namesBayDays(plenty)).toBe(false);
  });

  it('still draws the bay days of a week that has few, where other weeks have plenty', () => {
    const week = { expected: 2, vehicles: [vehicle('A')] };
    const mixed = outlook({
      weeks: [
        { ...week, week: '2026-03-02', bay_days: 1 },
        { ...week, week: '2026-03-09', bay_days: 400 },
      ],
    });
    expect(named(mixed, 'free bay days')?.data).toEqual([null, 1, null]);
    expect(namesBayDays(mixed)).toBe(true);
  });

  it('keeps mark-up in a unit number from becoming mark-up', () => {
    const named = outlook({ overdue: [vehicle('<img src=x>', 'hold')], weeks: [] });
    const { tooltip } = outlookOption(named, { look }) as unknown as {
      tooltip: { formatter: (items: object[]) => string };
    };
    expect(tooltip.formatter([{ dataIndex: 0 }])).toContain('&#60;img');
  });
});

it('gives the same numbers as a table', () => {
  expect(outlookNumbers(outlook()).rows).toEqual([
    ['past the limit', '', '', 'P'],
    ['2 Mar', '0.8', '3', ''],
    ['9 Mar', '1.6', '2', 'B, A'],
  ]);
});
