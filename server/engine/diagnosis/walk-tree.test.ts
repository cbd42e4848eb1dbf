import { describe, expect, it } from 'vitest';
import { decisionTree } from './decision-tree.ts';
import { walkTree } from './walk-tree.ts';

it('runs as its note says', () => {
  expect(walkTree(decisionTree, { fluid: 'coolant_in_fluid' }).end).toBe('coolant');
});

describe('the way through the tree', () => {
  it('begins with the fluid', () => {
    expect(walkTree(decisionTree, {})).toEqual({
      path: [{ node: 'fluid', result: null }],
      next: 'fluid',
      end: null,
      notNeeded: [],
      aside: [],
    });
  });

  it('keeps the transmission in after no current, and says what led past the steps inside', () => {
    const walk = walkTree(decisionTree, {
      fluid: 'fluid_right',
      road_test: 'slips',
      solenoid_current: 'no_current',
    });
    expect(walk.path.map(({ node }) => node)).toEqual(['fluid', 'road_test', 'current', 'no_current']);
    expect(walk.path.at(-1)).toEqual({ node: 'no_current', result: null });
    expect(walk).toMatchObject({ next: null, end: 'no_current' });
    const by = { node: 'current', result: 'no_current' };
    expect(walk.notNeeded).toEqual([
      { step: 'pressure', ...by },
      { step: 'pan', ...by },
      { step: 'cooler', ...by },
    ]);
  });

  it('needs no pressure while the clutch holds, though the current is still asked for', () => {
    const walk = walkTree(decisionTree, { fluid: 'fluid_right', road_test: 'holds' });
    expect(walk.next).toBe('solenoid_current');
    expect(walk.notNeeded.map(({ step }) => step)).toEqual(['pressure', 'pan', 'cooler']);
    expect(walk.notNeeded[0]).toMatchObject({ node: 'road_test', result: 'holds' });
  });

  it('comes to the converter and past the cooler where all passed and the pan is clean', () => {
    const walk = walkTree(decisionTree, {
      fluid: 'fluid_burnt',
      road_test: 'slips',
      solenoid_current: 'current_right',
      pressure: 'pressure_changes',
      pan: 'pan_fine',
    });
    expect(walk.end).toBe('converter_worn');
    expect(walk.notNeeded).toEqual([{ step: 'cooler', node: 'pan', result: 'pan_fine' }]);
  });

  it('waits at a step that was left out, and keeps later results aside', () => {
    const walk = walkTree(decisionTree, { fluid: 'fluid_right', pan: 'pan_lining' });
    expect(walk.next).toBe('road_test');
    expect(walk.aside).toEqual([{ step: 'pan', result: 'pan_lining' }]);
  });

  it('throws where a tree names a place that it does not have', () => {
    const [root] = decisionTree;
    expect(() => walkTree(root === undefined ? [] : [root], { fluid: 'fluid_right' })).toThrow(
      'walkTree requires a tree that has road_test',
    );
    expect(() => walkTree([], {})).toThrow('walkTree requires a tree that has a root');
  });

  it('throws where a result has no branch', () => {
    expect(() => walkTree(decisionTree, { fluid: 'slips' })).toThrow(
      'walkTree requires a branch for slips at fluid',
    );
  });
});
