import { describe, expect, it } from 'vitest';
import { spreadLabels } from './spread-labels.ts';

const bounds = { topPx: 0, bottomPx: 300 };
const placed = (...ys: number[]) =>
  spreadLabels(
    ys.map((yPx) => ({ yPx })),
    17,
    bounds,
  ).map((one) => one.placedPx);

describe('spreadLabels', () => {
  it('leaves labels where they are when they are far apart', () => {
    expect(placed(20, 200)).toEqual([20, 200]);
  });

  it('moves two that touch apart by equal parts', () => {
    const [upper = 0, lower = 0] = placed(100, 104);
    expect(lower - upper).toBeCloseTo(17);
    expect((upper + lower) / 2).toBeCloseTo(102);
  });

  it('keeps all within the bounds, a gap apart, at the lower edge too', () => {
    const ys = placed(298, 299, 300, 300);
    expect(ys.at(-1)).toBeLessThanOrEqual(300);
    const gaps = ys.slice(1).map((y, i) => y - (ys[i] ?? 0));
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(17 - 1e-9);
  });

  it('keeps many that end near the upper edge below it', () => {
    const ys = placed(1, 2, 4, 9, 11, 27);
    expect(ys[0]).toBeGreaterThanOrEqual(0);
    const gaps = ys.slice(1).map((y, i) => y - (ys[i] ?? 0));
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(17 - 1e-9);
  });
});
