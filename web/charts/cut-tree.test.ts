import { describe, expect, it } from 'vitest';
import type { TreeNode } from '#server/contract/test-steps.ts';
import { cutTree } from './cut-tree.ts';
import { layoutTree } from './tree-layout.ts';

const chain: TreeNode[] = Array.from({ length: 12 }, (_, at) => ({
  id: `s${at}`,
  step: 'fluid' as const,
  title: `Step ${at}`,
  branches: [
    { results: ['fluid_right' as const], says: `on ${at}`, to: `s${at + 1}` },
    { results: ['level_low' as const], says: `over ${at}`, to: `s${at + 3}` },
    { results: ['fluid_burnt' as const], says: `out ${at}`, to: `e${at % 5}` },
  ].filter(({ to }) => !/^s1[2-9]$/.test(to)),
  end: null,
}));
const ends: TreeNode[] = Array.from({ length: 5 }, (_, at) => ({
  id: `e${at}`,
  step: null,
  title: `End ${at}`,
  branches: [],
  end: { words: 'words', work: 'none' as const, removes_transmission: false, causes: [] },
}));
const whole = layoutTree({ nodes: [...chain, ...ends], path: [] }, { widthPx: 500, sizePx: 8 });

describe('cutTree', () => {
  it('leaves a drawing that fits in one part', () => {
    const parts = cutTree(whole, whole.heightPx);
    expect(parts).toHaveLength(1);
    expect(parts[0]?.boxes).toEqual(whole.boxes);
  });

  it('keeps each box and each text in one part, whole, and no part too tall', () => {
    const most = whole.heightPx / 2.4;
    const parts = cutTree(whole, most);
    expect(parts.length).toBeGreaterThan(2);
    expect(parts.flatMap(({ boxes }) => boxes.map(({ key }) => key))).toEqual(
      whole.boxes.map(({ key }) => key),
    );
    const textsOf = (layout: typeof whole) =>
      [...layout.boxes, ...layout.lines].flatMap(({ texts }) => texts.map(({ text }) => text)).sort();
    expect(parts.flatMap(textsOf).sort()).toEqual(textsOf(whole));
    for (const { heightPx, boxes, lines } of parts) {
      expect(heightPx).toBeLessThanOrEqual(most);
      for (const { y, height } of boxes) {
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y + height).toBeLessThanOrEqual(heightPx);
      }
      for (const { points } of lines)
        for (const [, y] of points) {
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(heightPx);
        }
    }
  });

  it('keeps the whole length of every upright', () => {
    const lengthOf = (layouts: readonly (typeof whole)[]) =>
      layouts
        .flatMap(({ lines }) => lines)
        .reduce(
          (sum, { points }) =>
            sum + points.slice(1).reduce((own, [, y], at) => own + Math.abs(y - (points[at]?.[1] ?? y)), 0),
          0,
        );
    expect(lengthOf(cutTree(whole, whole.heightPx / 2.4))).toBeCloseTo(lengthOf([whole]), 6);
  });
});
