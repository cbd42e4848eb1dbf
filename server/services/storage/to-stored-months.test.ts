import { expect, it } from 'vitest';
import { measureGrowth } from './measure-growth.ts';
import { toStoredMonths } from './to-stored-months.ts';

const now = new Date('2026-11-27T12:00:00Z');
const found = (month: string, estimatedRows: number, heapBytes = 85 * estimatedRows) => ({
  month,
  tableId: Number(month.replace('-', '')),
  heapBytes,
  indexBytes: 30 * estimatedRows,
  estimatedRows,
  sampledFirstAt: null,
  sampledLastAt: null,
});
const settled = (month: string, rows: number, heapBytes: number) => ({
  month,
  tableId: Number(month.replace('-', '')),
  rows,
  heapBytes,
  firstAt: new Date(`${month}-01T00:00:07Z`),
  lastAt: new Date(`${month}-28T23:00:00Z`),
});

it('counts months that are in order, and says of others that they are an estimate', () => {
  const months = toStoredMonths(
    [
      found('2026-09', 1_000_000),
      found('2026-10', 1_010_000),
      found('2026-11', 900_000),
      found('2027-01', 0),
    ],
    [settled('2026-09', 1_000_321, 85_000_000), settled('2026-10', 500_000, 42_500_000)],
    now,
    36,
  );
  expect(
    months.map(({ month, state, rows, estimated, drops_on }) => [month, state, rows, estimated, drops_on]),
  ).toEqual([
    ['2026-09', 'settled', 1_000_321, false, '2029-10-01'],
    ['2026-10', 'over', 1_010_000, true, '2029-11-01'],
    ['2026-11', 'open', 900_000, true, '2029-12-01'],
    ['2027-01', 'ahead', 0, false, '2030-02-01'],
  ]);
  expect(months[0]?.first_at).toBe('2026-09-01T00:00:07.000Z');
});

it('does not take the record of another table for that of a month', () => {
  const [month] = toStoredMonths(
    [{ ...found('2026-09', 1000), tableId: 5 }],
    [settled('2026-09', 2000, 85_000)],
    now,
    0,
  );
  expect(month).toMatchObject({ state: 'over', rows: 1000, drops_on: null });
});

it('names a month that stands alone, more than a year from every other', () => {
  const alone = (...months: string[]) =>
    toStoredMonths(
      months.map((month) => found(month, 10)),
      [],
      now,
      0,
    )
      .filter((one) => one.alone)
      .map(({ month }) => month);
  expect(alone('1991-03', '2025-11', '2026-11')).toEqual(['1991-03']);
  expect(alone('2025-10', '2026-11')).toEqual(['2025-10', '2026-11']);
  expect(alone('2026-11')).toEqual([]);
});

it('takes the rate of the month before, else of this month so far', () => {
  const of = (...months: ReturnType<typeof found>[]) =>
    measureGrowth(toStoredMonths(months, [], now, 0), now, 100);
  expect(of(found('2026-10', 3100), found('2026-11', 53))).toEqual({
    month: '2026-10',
    readings_per_day: 100,
    bytes_per_day: 10_000,
  });
  expect(of(found('2026-09', 3100), found('2026-11', 53))).toMatchObject({
    month: '2026-11',
    readings_per_day: 2,
  });
  expect(of(found('2026-09', 3100))).toBeNull();
});
