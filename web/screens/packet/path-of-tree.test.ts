import { expect, it } from 'vitest';
import type { TreeNode } from '#server/contract/test-steps.ts';
import { keepPath } from './path-of-tree.ts';

const step = (id: string, ...to: string[]): TreeNode => ({
  id,
  step: 'fluid',
  title: id,
  branches: to.map((one) => ({ results: ['fluid_right'], says: one, to: one })),
  end: null,
});

it('keeps the way taken and what it could have led to, and lets go of the rest', () => {
  const nodes = [step('a', 'b', 'c'), step('b', 'd'), step('c', 'e'), step('d'), step('e')];
  const path = [
    { node: 'a', result: 'fluid_right' as const },
    { node: 'b', result: null },
  ];
  const kept = keepPath({ nodes, path });
  expect(kept.nodes.map(({ id, branches }) => [id, branches.length])).toEqual([
    ['a', 2],
    ['b', 1],
    ['c', 0],
    ['d', 0],
  ]);
  expect(kept.path).toBe(path);
});
