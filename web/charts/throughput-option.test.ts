import { expect, it } from 'vitest';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { listThroughputNumbers, type ThroughputBin, throughputOption } from './throughput-option.ts';

const bin = (name: string, stored: number, refused: number): ThroughputBin => ({
  name,
  longName: `long ${name}`,
  deliveries: 1,
  received: stored + refused,
  stored,
  duplicate: 0,
  refused,
});
const bins = [bin('a', 12_000, 3), bin('b', 4000, 0)];

interface Drawn {
  series: { id: string; data: number[]; yAxisIndex: number }[];
  yAxis: { max: number; interval: number }[];
  graphic: { elements: { style: { text: string } }[] };
  tooltip: { formatter: (items: object[]) => string };
}
const drawn = (of: readonly ThroughputBin[]) => throughputOption(of, frameOf(800)) as unknown as Drawn;

it('gives each fate a strip and a scale of its own, so that few refused lines are seen beside many stored', () => {
  const { series, yAxis } = drawn(bins);
  expect(series.map(({ id, data }) => [id, data])).toEqual([
    ['stored', [12_000, 4000]],
    ['duplicate', [0, 0]],
    ['refused', [3, 0]],
  ]);
  expect(yAxis[0]?.max).toBeGreaterThanOrEqual(12_000);
  expect(yAxis[2]?.max).toBeGreaterThanOrEqual(3);
  expect(yAxis[2]?.max).toBeLessThan(10);
});

it('names each strip with its sum, and tells an hour in full', () => {
  const { graphic, tooltip } = drawn(bins);
  expect(graphic.elements.map(({ style }) => style.text)).toEqual([
    'stored: 16,000 lines',
    'there already: 0 lines',
    'refused: 3 lines',
  ]);
  expect(tooltip.formatter([{ dataIndex: 0 }])).toContain('12,000 stored');
});

it('has whole ticks also where there is nothing', () => {
  for (const { max, interval } of drawn([bin('a', 0, 0)]).yAxis) {
    expect(max).toBeGreaterThan(0);
    expect(Number.isInteger(interval)).toBe(true);
  }
});

it('gives the same numbers as a table', () => {
  expect(listThroughputNumbers(bins, 'Lines by hour')[0]?.rows).toEqual([
    ['long a', '1', '12,003', '12,000', '0', '3'],
    ['long b', '1', '4,000', '4,000', '0', '0'],
  ]);
});
