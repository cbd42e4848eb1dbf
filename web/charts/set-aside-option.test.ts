import { expect, it } from 'vitest';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import {
  type GatewayShares,
  listSetAsideNumbers,
  scaleSetAside,
  setAsideOption,
} from './set-aside-option.ts';

const gateway = (name: string, setAside: Record<string, number>): GatewayShares => ({
  sender: { id: `key:${name}`, kind: 'key', name },
  months: [
    { month: '2026-01', readings: 0, set_aside: {} },
    { month: '2026-02', readings: 100, set_aside: setAside },
  ],
});
const low = gateway('low', { cold: 10 });
const high = gateway('high', { shifting: 40, cold: 20, hot: 1, overrun: 2, low_load: 3 });

interface Drawn {
  series: { name: string; data: (number | null)[] }[];
  yAxis: { max: number };
  graphic: { elements: { style: { text: string }; y: number }[] };
  tooltip: { formatter: (items: object[]) => string };
}

it('puts all gateways on one scale, in one order of reasons', () => {
  const scale = scaleSetAside([low, high]);
  expect(scale.top).toBe(0.8);
  expect(scale.reasons.slice(0, 2)).toEqual(['shifting', 'cold']);
  for (const one of [low, high]) {
    const { yAxis } = setAsideOption(one, scale, frameOf(420)) as unknown as Drawn;
    expect(yAxis.max).toBe(scale.top);
  }
});

it('stacks shares by reason, a month without readings empty, and names the parts of the last month', () => {
  const scale = scaleSetAside([low, high]);
  const { series, graphic, tooltip } = setAsideOption(high, scale, frameOf(420)) as unknown as Drawn;
  expect(series[0]).toMatchObject({ name: 'shifting', data: [null, 0.4] });
  expect(series.map(({ name }) => name).at(-1)).toBe('other reasons');
  expect(series.reduce((sum, { data }) => sum + (data[1] ?? 0), 0)).toBeCloseTo(0.66, 9);
  const names = graphic.elements.map(({ style }) => style.text);
  expect(names).toContain('shifting');
  const heights = graphic.elements.map(({ y }) => y).toSorted((a, b) => a - b);
  heights.slice(1).forEach((y, i) => {
    expect(y - (heights[i] ?? 0)).toBeGreaterThan(14);
  });
  expect(tooltip.formatter([{ dataIndex: 1 }])).toContain('of readings set aside');
  expect(tooltip.formatter([{ dataIndex: 0 }])).toContain('no readings');
});

it('gives the same numbers as a table', () => {
  const scale = scaleSetAside([low]);
  expect(
    listSetAsideNumbers(low, scale)[0]?.rows.map((row) => row.map((cell) => cell.replaceAll('\u00a0', ' '))),
  ).toEqual([
    ['2026-01', '0', '–', '–'],
    ['2026-02', '100', '10 %', '10 %'],
  ]);
});
