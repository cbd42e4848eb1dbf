import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TreeNode } from '#server/contract/test-steps.ts';
import type { FindingResult } from '#server/contract/words.ts';
import type { DecisionTree } from './order-tree.ts';
import { textWidth } from './text-width.ts';
import { layoutTree, type TreeLayout } from './tree-layout.ts';
import { writeTreeSvg } from './tree-svg.ts';

const step = (
  id: string,
  name: TreeNode['step'],
  title: string,
  branches: [FindingResult[], string, string][],
): TreeNode => ({
  id,
  step: name,
  title,
  branches: branches.map(([results, says, to]) => ({ results, says, to })),
  end: null,
});

const end = (id: string, title: string, work: NonNullable<TreeNode['end']>['work']): TreeNode => ({
  id,
  step: null,
  title,
  branches: [],
  end: { words: `${title}: look there first`, work, removes_transmission: work === 'converter', causes: [] },
});

/** A small tree of the test's own; ways pass over steps, and two results lead to one end. */
const nodes: TreeNode[] = [
  step('fluid', 'fluid', 'Fluid level and condition', [
    [['level_low', 'level_high'], 'level wrong', 'level'],
    [['coolant_in_fluid'], 'coolant in the fluid, milky all through', 'coolant'],
    [['fluid_burnt'], 'dark and burnt', 'pan'],
    [['fluid_right'], 'level and colour right', 'road'],
  ]),
  step('road', 'road_test', 'Road test with the command held', [
    [['holds'], 'no slip with the command held', 'nothing'],
    [['slips'], 'slips through', 'current'],
    [['slip_raised'], 'slip raised', 'pressure'],
  ]),
  step('current', 'solenoid_current', 'Solenoid current at the fuse', [
    [['no_current', 'current_low'], 'no current, or low', 'wiring'],
    [['current_right'], 'rises as it should', 'pressure'],
  ]),
  step('pressure', 'pressure', 'Pressure with the solenoid off and on', [
    [['pressure_stays'], 'does not change', 'valve'],
    [['pressure_changes', 'pressure_unclear'], 'changes', 'pan'],
  ]),
  step('pan', 'pan', 'Debris in the pan', [
    [['pan_lining', 'pan_metal'], 'lining or metal', 'converter'],
    [['pan_clean', 'pan_fine'], 'clean, or fine grey', 'valve'],
  ]),
  end('level', 'Level wrong', 'none'),
  end('coolant', 'Coolant in the fluid', 'converter'),
  end('nothing', 'Nothing shows', 'none'),
  end('wiring', 'Wiring or solenoid', 'outside'),
  end('valve', 'Valve that does not move', 'valve_body'),
  end('converter', 'Clutch lining worn', 'converter'),
];

const path: DecisionTree['path'] = [
  { node: 'fluid', result: 'fluid_right' },
  { node: 'road', result: 'slip_raised' },
  { node: 'pressure', result: 'pressure_changes' },
  { node: 'pan', result: 'pan_lining' },
  { node: 'converter', result: null },
];

const sizes = [
  { widthPx: 340, sizePx: 13 },
  { widthPx: 515, sizePx: 8.5 },
  { widthPx: 900, sizePx: 13 },
];

interface Area {
  name: string;
  x: number;
  y: number;
  width: number;
  height: number;
}

const widthOf = ({ text, sizePx, strong }: { text: string; sizePx: number; strong: boolean }) =>
  textWidth(text, strong ? sizePx * 1.06 : sizePx);

/** All boxes, and the labels of ways, as areas that must keep apart. */
const areasOf = (layout: TreeLayout): Area[] => [
  ...layout.boxes.map(({ key, x, y, width, height }) => ({ name: key, x, y, width, height })),
  ...layout.lines.flatMap(({ key, texts }) =>
    texts.map((text) => ({
      name: `${key}: ${text.text}`,
      x: text.x,
      y: text.y - text.sizePx * 0.8,
      width: widthOf(text),
      height: text.sizePx,
    })),
  ),
];

const overlaps = (areas: readonly Area[]): string[] =>
  areas.flatMap((a, at) =>
    areas
      .slice(at + 1)
      .filter(
        (b) =>
          a.x < b.x + b.width - 0.01 &&
          b.x < a.x + a.width - 0.01 &&
          a.y < b.y + b.height - 0.01 &&
          b.y < a.y + a.height - 0.01,
      )
      .map((b) => `${a.name} on ${b.name}`),
  );

/** Ways that run through the inside of a box that they neither leave nor reach. */
const crossings = (layout: TreeLayout): string[] =>
  layout.lines.flatMap(({ key, points }) =>
    points.slice(1).flatMap(([x, y], at) => {
      const [fromX, fromY] = points[at]!;
      const inside = layout.boxes.filter(
        (box) =>
          Math.max(x, fromX) > box.x + 0.5 &&
          Math.min(x, fromX) < box.x + box.width - 0.5 &&
          Math.max(y, fromY) > box.y + 0.5 &&
          Math.min(y, fromY) < box.y + box.height - 0.5,
      );
      return inside.map((box) => `${key} through ${box.key}`);
    }),
  );

const holdsTogether = (layout: TreeLayout) => {
  expect(overlaps(areasOf(layout))).toEqual([]);
  expect(crossings(layout)).toEqual([]);
  for (const { x, y, width, height, texts } of layout.boxes) {
    for (const text of texts) {
      expect(text.x).toBeGreaterThanOrEqual(x);
      expect(text.x + widthOf(text)).toBeLessThanOrEqual(x + width);
      expect(text.y).toBeLessThanOrEqual(y + height);
    }
  }
  for (const area of areasOf(layout)) {
    expect(area.x).toBeGreaterThanOrEqual(0);
    expect(area.x + area.width).toBeLessThanOrEqual(layout.widthPx);
    expect(area.y + area.height).toBeLessThanOrEqual(layout.heightPx);
  }
  for (const { points } of layout.lines)
    for (const [x, y] of points) {
      expect(x).toBeGreaterThanOrEqual(0);
      expect(x).toBeLessThanOrEqual(layout.widthPx);
      expect(y).toBeLessThanOrEqual(layout.heightPx);
    }
};

describe('layoutTree', () => {
  it.each(sizes)('keeps boxes and labels apart and inside at $widthPx px', (size) => {
    const layout = layoutTree({ nodes, path }, size);
    expect(layout.form).toBe(size.widthPx === 340 ? 'narrow' : 'wide');
    holdsTogether(layout);
  });

  it('says every title and every result', () => {
    for (const size of sizes) {
      const { boxes, lines } = layoutTree({ nodes, path }, size);
      const said = [...boxes, ...lines]
        .map(({ texts }) => texts.map(({ text }) => text).join(' '))
        .join('\n');
      for (const { title, branches } of nodes) {
        expect(said).toContain(title);
        for (const { says } of branches) expect(said).toContain(says);
      }
    }
  });

  it('draws an end anew where one result leads to it again', () => {
    const { boxes } = layoutTree({ nodes, path }, { widthPx: 900 });
    expect(boxes.filter(({ node }) => node === 'valve')).toHaveLength(2);
    expect(new Set(boxes.map(({ key }) => key)).size).toBe(boxes.length);
  });

  it('joins results whose ends all stand further up, and still says each', () => {
    const twice = [
      ...nodes.map((node) =>
        node.id === 'pan'
          ? {
              ...node,
              branches: [
                ...node.branches,
                { results: ['cooler_flows' as const], says: 'a third', to: 'level' },
                { results: ['cooler_restricted' as const], says: 'a fourth', to: 'coolant' },
              ],
            }
          : node,
      ),
    ];
    const { boxes, lines } = layoutTree({ nodes: twice, path }, { widthPx: 900 });
    const joined = lines.filter(({ texts }) =>
      texts
        .map(({ text }) => text)
        .join(' ')
        .includes('; a third'),
    );
    expect(joined.map(({ texts }) => texts.map(({ text }) => text).join(' '))).toEqual([
      'clean, or fine grey; a third; a fourth',
    ]);
    expect(boxes.find(({ key }) => key === joined[0]?.key)?.texts[0]?.text).toContain('further up');
  });

  it('sets the path apart by word as well as by weight', () => {
    const { boxes, lines } = layoutTree({ nodes, path }, { widthPx: 900 });
    expect(boxes.filter(({ taken }) => taken).map(({ node }) => node)).toEqual([
      'fluid',
      'road',
      'pressure',
      'pan',
      'converter',
    ]);
    expect(boxes.filter(({ last }) => last).map(({ node }) => node)).toEqual(['converter']);
    const found = lines.filter(({ taken }) => taken);
    expect(found).toHaveLength(4);
    for (const { texts } of found) expect(texts[0]?.text).toMatch(/^found: /);
    expect(lines.slice(-4).every(({ taken }) => taken)).toBe(true);
  });

  it('marks the step to do where nothing was found yet', () => {
    const { boxes, lines } = layoutTree({ nodes, path: [{ node: 'fluid', result: null }] }, { widthPx: 340 });
    const last = boxes.filter((box) => box.last);
    expect(last.map(({ node }) => node)).toEqual(['fluid']);
    expect(last[0]?.texts.map(({ text }) => text)).toContain('do this next');
    expect(lines.some(({ taken }) => taken)).toBe(false);
  });

  it('draws nothing of an empty tree', () => {
    expect(layoutTree({ nodes: [], path: [] }, { widthPx: 340 }).boxes).toEqual([]);
  });

  it('holds together with words of any length', () => {
    const words = fc
      .string({ minLength: 1, maxLength: 60, unit: 'grapheme-ascii' })
      .filter((text) => text.trim() !== '');
    fc.assert(
      fc.property(fc.array(words, { minLength: nodes.length }), fc.constantFrom(...sizes), (says, size) => {
        const reworded = nodes.map((node, at) => ({
          ...node,
          title: says[at]!,
          branches: node.branches.map((branch, of) => ({ ...branch, says: says[(at + of) % says.length]! })),
        }));
        holdsTogether(layoutTree({ nodes: reworded, path }, size));
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe('writeTreeSvg', () => {
  const look = {
    ink: '#111',
    inkSoft: '#555',
    hairlineStrong: '#888',
    paper: '#fff',
    paperSunk: '#eee',
    fontFamily: 'Body',
  };

  it('escapes what would be markup', () => {
    const layout = layoutTree(
      { nodes: nodes.map((node) => ({ ...node, title: 'a < b & "c"' })), path },
      { widthPx: 900 },
    );
    const svg = writeTreeSvg(layout, look as Parameters<typeof writeTreeSvg>[1]);
    expect(svg).toContain('a &lt; b &amp; &quot;c&quot;');
    expect(svg).not.toContain('a < b');
  });
});
