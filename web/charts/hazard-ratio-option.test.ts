import { describe, expect, it } from 'vitest';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { hazardRatioOption, listRatioNumbers, type RatioRow, ratioHeight } from './hazard-ratio-option.ts';
import type { LineShape, Shape } from './shapes.ts';

const rows: RatioRow[] = [
  { name: '10 °C hotter fluid', ratio: 1.6, low: 1.1, high: 2.3, p: 0.01 },
  { name: '5 % more load', ratio: 1, low: 0.5, high: 2, p: 0.9 },
  { name: 'something rare', ratio: 4, low: 0.01, high: 900, p: 0.6 },
];
const frame = frameOf(500, ratioHeight(rows.length));
const linesOf = (all: RatioRow[]) => {
  const { graphic } = hazardRatioOption(all, frame) as unknown as { graphic: { elements: Shape[] } };
  const found = graphic.elements.filter((one): one is LineShape => one.type === 'line');
  return new Map(found.map((one) => [one.id, one.shape]));
};

describe('the drawing of hazard ratios', () => {
  it('centres what makes no difference on the line at 1, an interval even to both sides', () => {
    const lines = linesOf(rows);
    const one = lines.get('one')!.x1;
    const { x1, x2 } = lines.get('interval-1')!;
    expect(Math.abs((x1 + x2) / 2 - one)).toBeLessThanOrEqual(0.51);
    expect(Math.abs(lines.get('dot-1')!.x1 - one)).toBeLessThanOrEqual(0.51);
    expect(lines.get('interval-0')!.x1).toBeGreaterThan(one);
  });

  it('lets an interval that is far too wide leave the scale with an arrow', () => {
    const lines = linesOf(rows);
    expect([lines.has('beyond-1-2'), lines.has('beyond--1-2'), lines.has('beyond-1-0')]).toEqual([
      true,
      true,
      false,
    ]);
    expect(lines.get('interval-2')!.x2).toBeLessThanOrEqual(500);
    expect(lines.get('interval-2')!.x1).toBeGreaterThanOrEqual(0);
  });

  it('lists them as they are', () => {
    expect(listRatioNumbers(rows)[0]?.rows[2]).toEqual(['something rare', '4', '0.01', '900', '0.6000']);
  });
});
