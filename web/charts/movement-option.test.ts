import { describe, expect, it } from 'vitest';
import type { PlatformMovement } from '#server/contract/movement.ts';
import { makeMovement, stepAt } from '#tests/browser/fixtures/movement-fixture.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { listMovementNumbers, movementOption, scaleOf } from './movement-option.ts';
import type { Shape, TextShape } from './shapes.ts';
import { textWidth } from './text-width.ts';

interface Drawn {
  series: { id: string; data: [number, number][] }[];
  xAxis: { min: number; max: number; axisLabel: { formatter: (ms: number) => string } };
  tooltip: { formatter: (items: { dataIndex: number }[]) => string };
  graphic: { elements: Shape[] };
}
const draw = (movement: PlatformMovement, widthPx = 900) =>
  movementOption(movement, frameOf(widthPx, 380)) as unknown as Drawn;
const dataOf = (drawn: Drawn, id: string) => drawn.series.find((one) => one.id === id)?.data ?? [];
const wordsOf = (drawn: Drawn) =>
  drawn.graphic.elements.filter((one): one is TextShape => one.type === 'text');
const movement = makeMovement();
const event = movement.events[0]!;
const eventAt = (at: string, size_rpm: number) => ({ ...event, at, size_rpm });

describe('the drawing of a common movement', () => {
  it('has a point in the middle of each week, with two standard errors either way', () => {
    const drawn = draw(movement);
    const points = dataOf(drawn, 'movement');
    expect(points).toHaveLength(60);
    expect(points[0]?.[0]).toBe(Date.parse('2025-01-09T12:00:00Z'));
    const [low, width] = [dataOf(drawn, 'low')[0]?.[1] ?? 0, dataOf(drawn, 'band')[0]?.[1] ?? 0];
    expect(low).toBeCloseTo((movement.weeks[0]?.movement_rpm ?? 0) - 0.8);
    expect(width).toBeCloseTo(1.6);
  });

  it('rings the weeks that took the figure of the one before', () => {
    expect(dataOf(draw(movement), 'carried').map(([ms]) => new Date(ms).toISOString().slice(0, 10))).toEqual([
      '2025-05-29',
      '2025-06-05',
    ]);
  });

  it('marks a step where it lies, dated and sized in words', () => {
    const drawn = draw(movement);
    const { min, max } = drawn.xAxis;
    const stem = drawn.graphic.elements.find((one) => one.id === 'step-0');
    const x = 44 + ((Date.parse(stepAt) - min) / (max - min)) * (900 - 44 - 18);
    expect(stem?.type === 'line' && Math.abs(stem.shape.x1 - x)).toBeLessThanOrEqual(0.5);
    expect(
      wordsOf(drawn)
        .map((one) => one.style.text)
        .join('\n'),
    ).toMatch(/^17 Sept? 2025: \+25 rpm at once on 55 vehicles$/m);
  });

  it.each([300, 358, 900, 1800])('keeps the words of several steps apart and within %i px', (widthPx) => {
    const events = [
      eventAt('2025-03-05T00:00:00Z', -12),
      eventAt('2025-04-02T00:00:00Z', 9),
      eventAt('2025-12-20T00:00:00Z', 25),
      eventAt('2026-01-28T00:00:00Z', 8),
    ];
    const words = wordsOf(draw({ ...movement, events }, widthPx));
    expect(words.length).toBeGreaterThanOrEqual(4);
    const boxes = words.map(({ x, y, style }) => {
      const width = textWidth(style.text, style.fontSize);
      const left = style.align === 'right' ? x - width : x;
      return { left, right: left + width, y };
    });
    for (const [i, box] of boxes.entries()) {
      expect(box.left).toBeGreaterThanOrEqual(-1);
      expect(box.right).toBeLessThanOrEqual(widthPx + 1);
      for (const other of boxes.slice(i + 1))
        expect(box.right <= other.left || other.right <= box.left || Math.abs(box.y - other.y) >= 15).toBe(
          true,
        );
    }
  });

  it('names months at their first day, and the year at its turn', () => {
    const { formatter } = draw(movement).xAxis.axisLabel;
    expect([Date.UTC(2025, 2, 1), Date.UTC(2026, 0, 1), Date.UTC(2026, 0, 15)].map(formatter)).toEqual([
      'Mar',
      'Jan 2026',
      '',
    ]);
  });

  it('tells the figures of a week under the pointer', () => {
    const tell = draw(movement).tooltip.formatter;
    expect(tell([{ dataIndex: 59 }])).toMatch(
      /^<b>Week of 23 Feb 2026<\/b><br>\+2\d\.\d ± 0\.8 rpm<br>57 vehicles$/,
    );
    expect(tell([{ dataIndex: 20 }])).toMatch(/too few vehicles \(3\): as the week before$/);
    expect(tell([])).toBe('');
  });

  it('draws nothing of no weeks', () => {
    expect(movementOption(makeMovement({ weeks: [], events: [] }), frameOf(900))).toEqual({});
  });
});

describe('the scale', () => {
  const week = (movement_rpm: number, error_rpm: number | null = null) => ({
    ...{ week: '2026-01-05', vehicles: 9, carried: false },
    movement_rpm,
    error_rpm,
  });
  it('holds every week with its error, between round ends', () => {
    expect(scaleOf([week(0), week(24.8, 0.2), week(-1)])).toEqual({ low: -10, high: 30, step: 10 });
  });
  it('keeps a platform that stands still flat', () => {
    const { low, high } = scaleOf([week(0.3), week(-0.2)]);
    expect(high - low).toBeGreaterThanOrEqual(20);
  });
});

it('gives the same figures as tables, steps first and the newest week on top', () => {
  const [steps, weeks] = listMovementNumbers(movement);
  expect(steps?.rows).toEqual([['2025-09-17', '24.8', '55']]);
  expect(weeks?.rows).toHaveLength(60);
  expect(weeks?.rows[0]?.[0]).toBe('2026-02-23');
  expect(weeks?.rows[39]?.slice(2)).toEqual(['as before', '3']);
  expect(listMovementNumbers(makeMovement({ events: [] }))).toHaveLength(1);
});
