import { describe, expect, it } from 'vitest';
import { treeNode } from '#server/contract/test-steps.ts';
import { decisionTree } from '#server/engine/diagnosis/decision-tree.ts';
import { walkTree } from '#server/engine/diagnosis/walk-tree.ts';
import { toTree, whyNext, whyNotNeeded } from './tree-words.ts';

it('is the tree of the engine, in the shape of the contract', () => {
  const tree = toTree();
  for (const node of tree) expect(treeNode.parse(node)).toEqual(node);
  expect(tree.map(({ id }) => id)).toEqual(decisionTree.map(({ id }) => id));
  expect(tree.find(({ id }) => id === 'converter_worn')?.end?.removes_transmission).toBe(true);
  expect(tree.find(({ id }) => id === 'no_current')?.end?.removes_transmission).toBe(false);
});

it('says nothing that clears a vehicle or names a diagnosis', () => {
  const words = JSON.stringify(toTree());
  expect(words).not.toMatch(/diagnos|\bsafe\b|guarantee/i);
});

describe('why a step', () => {
  it.each([
    [{}, 'First: it costs nothing and opens nothing.'],
    [{ fluid: 'level_low' }, 'Before this: fluid level is low. Correct it, then drive.'],
    [
      { fluid: 'fluid_right', road_test: 'too_little_steady' },
      'Before this: too little steady driving. Repeat that, or go on here.',
    ],
    [{ fluid: 'fluid_right', road_test: 'slips' }, 'Before this: clutch slips.'],
    [{ fluid: 'coolant_in_fluid' }, null],
  ] as const)('is next after %o', (results, why) => {
    expect(whyNext(walkTree(decisionTree, results))).toBe(why);
  });

  it('is not needed', () => {
    const { notNeeded } = walkTree(decisionTree, { fluid: 'coolant_in_fluid' });
    expect(notNeeded.map(whyNotNeeded)[0]).toBe('Not needed after this: coolant in the fluid.');
  });
});
