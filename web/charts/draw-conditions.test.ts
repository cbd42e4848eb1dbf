import { describe, expect, it } from 'vitest';
import { vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { makeSeries } from '#tests/browser/fixtures/vehicle-series.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { drawDuty, listDutyNumbers } from './draw-duty.ts';
import { drawShares, sayBin } from './draw-shares.ts';
import type { Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';

const shapesOf = (option: { graphic?: unknown }): Shape[] =>
  (option.graphic as { elements: Shape[] }).elements;

describe('drawDuty', () => {
  const byDuty = makeSeries(vehicleCases.drifting!).by_duty!;

  it('draws an interval for every point and names both lines', () => {
    const shapes = shapesOf(drawDuty(byDuty, 85, frameOf(380, 340)));
    expect(shapes.filter((one) => one.id.includes('whisker'))).toHaveLength(
      byDuty.now.length + byDuty.healthy.length,
    );
    const words = shapes.flatMap((one) => (one.type === 'text' ? [one.style.text] : []));
    expect(words).toContain('healthy, 8,000\u00a0km');
    expect(words).toContain('last 3,000\u00a0km');
  });

  it.each([280, 330, 380, 560])(
    'keeps the words above the plot clear of one another within %i px',
    (widthPx) => {
      const words = shapesOf(drawDuty(byDuty, 85, frameOf(widthPx, 340))).flatMap((one) =>
        one.type === 'text' && /^(y-title|healthy-words|now-words)$/.test(one.id)
          ? [{ left: one.x, right: one.x + textWidth(one.style.text, one.style.fontSize), y: one.y }]
          : [],
      );
      expect(words).toHaveLength(3);
      for (const one of words) expect(one.right).toBeLessThanOrEqual(widthPx);
      for (const [i, one] of words.entries())
        for (const other of words.slice(i + 1))
          expect(one.right <= other.left || other.right <= one.left || Math.abs(one.y - other.y) >= 17).toBe(
            true,
          );
    },
  );

  it('lists both lines as numbers', () => {
    expect(listDutyNumbers(byDuty, frameOf(1).units)[0]?.rows).toHaveLength(12);
  });
});

describe('drawShares', () => {
  const bins = [
    { from: null, to: 60, share: 0.1 },
    { from: 60, to: 80, share: 0.6 },
    { from: 80, to: null, share: 0.3 },
  ];

  it('draws bars in proportion to their shares', () => {
    const shapes = shapesOf(drawShares({ bins, unit: 'fluid, °C', reference: 70 }, frameOf(300, 150)));
    const heights = shapes.flatMap((one) => (one.type === 'rect' ? [one.shape.height] : []));
    expect((heights[1] ?? 0) / (heights[0] ?? 1)).toBeCloseTo(6);
    expect((heights[2] ?? 0) / (heights[0] ?? 1)).toBeCloseTo(3);
  });

  it('marks the reference within its bin', () => {
    const mark = shapesOf(drawShares({ bins, unit: '', reference: 70 }, frameOf(308, 150))).find(
      (one) => one.id === 'reference',
    );
    expect(mark?.type === 'line' && mark.shape.x1).toBeCloseTo(4 + 150);
  });

  it('says open bins in words', () => {
    expect(bins.map(sayBin)).toEqual(['under 60', '60 to 80', 'over 80']);
  });
});
