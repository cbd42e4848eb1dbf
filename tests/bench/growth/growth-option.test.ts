import { describe, expect, it } from 'vitest';
import { paperLook } from '#server/packet-pdf/paper-look.ts';
import type { PolyShape, Shape, TextShape } from '#web/charts/shapes.ts';
import { growthOption } from './growth-option.ts';
import type { Cost, GrowthPoint } from './growth-point.ts';
import { writeTable } from './write-table.ts';

const level: Record<Cost, number> = { row: 0.04, touched: 20, list: 8, vehicle: 4, series: 6 };
const makePoint = (grows: GrowthPoint['grows'], times: number): GrowthPoint => ({
  grows,
  times,
  vehicles: grows === 'vehicles' ? 300 * times : 300,
  days: grows === 'vehicles' ? 73 : 73 * times,
  // One cost that grows as the vehicles do, the others do not.
  processorMs: { ...level, list: grows === 'vehicles' ? 8 * times : 8 },
  clockMs: level,
});
const points = (['vehicles', 'history'] as const).flatMap((grows) =>
  [1, 3, 10].map((times) => makePoint(grows, times)),
);
const option = growthOption(points, { look: paperLook, widthPx: 980, heightPx: 440 });
const shapes = (option.graphic as unknown as { elements: Shape[] }).elements;
const find = <T extends Shape>(id: string) => shapes.find((one) => one.id === id) as T;
const heights = (id: string) => find<PolyShape>(id).shape.points.map(([, y]) => y);

describe('the plot of growth', () => {
  it('draws what does not grow as a level line', () => {
    const [first, ...others] = heights('history-row');
    expect(others).toEqual([first, first]);
  });
  it('draws what grows as the size does by the slope of the dashed line', () => {
    const [one = 0, , ten = 0] = heights('vehicles-list');
    const dashed = shapes.find(({ id }) => id === 'vehicles-size');
    if (dashed?.type !== 'line') throw new Error('there is no dashed line');
    expect(one - ten).toBeCloseTo(dashed.shape.y1 - dashed.shape.y2, 6);
  });
  it('puts the sizes at equal distances, as their logarithms nearly are', () => {
    const xs = find<PolyShape>('vehicles-row').shape.points.map(([x]) => x);
    const [a = 0, b = 0, c = 0] = xs;
    expect((b - a) / (c - a)).toBeCloseTo(Math.log10(3), 6);
  });
  it('names each line once, beside its end, and none upon another', () => {
    const names = shapes.filter(({ id }) => id.endsWith('-name') && id !== 'size-name') as TextShape[];
    expect(names.map(({ style }) => style.text).sort()).toEqual([
      'a page of the list',
      'a row delivered',
      'a series',
      'a vehicle',
      'a vehicle with new data assessed',
    ]);
    const ys = names.map(({ y }) => y).sort((a, b) => a - b);
    for (const [i, y] of ys.entries()) if (i > 0) expect(y - (ys[i - 1] ?? 0)).toBeGreaterThanOrEqual(17);
  });
});

it('writes a row a size, processor time before the clock', () => {
  const lines = writeTable([makePoint('vehicles', 10)]).split('\n');
  expect(lines).toHaveLength(3);
  expect(lines[2]).toBe(
    '| vehicles 10× | 3000 | 73 | 5,256,000 | 0.04 / 0.04 | 20 / 20 | 80 / 8 | 4 / 4 | 6 / 6 |',
  );
});
