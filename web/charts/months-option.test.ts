import { expect, it } from 'vitest';
import type { StoredMonth } from '#server/contract/storage.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { listMonthNumbers, type MonthBin, monthsOption } from './months-option.ts';

const bin = (month: string, rows: number, changes: Partial<StoredMonth> = {}): MonthBin => ({
  month,
  stored: {
    month,
    state: 'settled',
    rows,
    estimated: false,
    heap_bytes: 84 * rows,
    index_bytes: 28 * rows,
    first_at: null,
    last_at: null,
    drops_on: '2026-12-01',
    alone: false,
    ...changes,
  },
});
const bins = [
  bin('2025-11', 1_200_000),
  { month: '2025-12', stored: null },
  bin('2026-01', 3_100_000, { estimated: true }),
];

interface Drawn {
  series: { id: string; data: { value: number; itemStyle: { color: string; opacity: number } }[] }[];
  xAxis: { data: string[] }[];
  yAxis: { max: number; interval: number }[];
  graphic: { elements: { style: { text: string } }[] };
  tooltip: { formatter: (items: object[]) => string };
}
const draw = (of: readonly MonthBin[], next: string | null = null) =>
  monthsOption(of, next, frameOf(800)) as unknown as Drawn;

it('has a strip of readings and one of bytes, each with round ticks and its sum', () => {
  const { series, yAxis, graphic } = draw(bins);
  expect(series[0]?.data.map(({ value }) => value)).toEqual([1.2, 0, 3.1]);
  expect(series[1]?.data.map(({ value }) => Math.round(value))).toEqual([128, 0, 331]);
  expect(yAxis.map(({ max, interval }) => [max, interval])).toEqual([
    [4, 2],
    [400, 200],
  ]);
  expect(graphic.elements.map(({ style }) => style.text.replaceAll('\u00a0', ' '))).toEqual([
    'Readings, millions: about 4.3 in all',
    'On disk, MiB: 459 MiB in all',
  ]);
});

it('shows an estimate paler, and what retention drops next in another tone and by words', () => {
  const { series, xAxis } = draw(bins, '2025-11');
  const [rows] = series;
  expect(rows?.data[2]?.itemStyle.opacity).toBeLessThan(rows?.data[0]?.itemStyle.opacity ?? 0);
  expect(rows?.data[0]?.itemStyle.color).not.toBe(rows?.data[2]?.itemStyle.color);
  expect(xAxis[1]?.data).toEqual(['Nov 2025\ngoes next', 'Dec 2025', 'Jan 2026']);
});

it('tells a month whole, also one of which nothing is stored', () => {
  const { tooltip } = draw(bins);
  expect(tooltip.formatter([{ dataIndex: 2 }])).toContain('about 3,100,000 readings');
  expect(tooltip.formatter([{ dataIndex: 0 }])).toContain('dropped on 1 Dec 2026');
  expect(tooltip.formatter([{ dataIndex: 1 }])).toContain('nothing stored');
});

it('draws what is small, and nothing at all', () => {
  expect(draw([bin('2026-01', 7)]).graphic.elements[0]?.style.text).toBe('Readings: 7 in all');
  expect(draw([bin('2026-01', 40_000)]).yAxis.map(({ max, interval }) => [max, interval])).toEqual([
    [40_000, 20_000],
    [6, 2],
  ]);
  expect(draw([]).yAxis.every(({ max }) => max > 0)).toBe(true);
});

it('gives the same numbers as a table', () => {
  expect(listMonthNumbers(bins)[0]?.rows).toEqual([
    ['2025-11', '1,200,000', 'counted', '100,800,000', '33,600,000', '2026-12-01'],
    ['2025-12', '0', 'counted', '0', '0', '–'],
    ['2026-01', '3,100,000', 'estimated', '260,400,000', '86,800,000', '2026-12-01'],
  ]);
});
