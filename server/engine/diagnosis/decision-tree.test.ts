import { describe, expect, it } from 'vitest';
import { decisionTree } from './decision-tree.ts';
import type { Result, Step, TreeNode } from './diagnosis-model.ts';

const resultsOf: Record<Step, readonly Result[]> = {
  fluid: ['fluid_right', 'level_low', 'level_high', 'coolant_in_fluid', 'fluid_burnt'],
  road_test: ['slips', 'slip_raised', 'holds', 'too_little_steady'],
  solenoid_current: ['current_right', 'no_current', 'current_low', 'current_high', 'current_stays'],
  pressure: ['pressure_changes', 'pressure_stays', 'pressure_unclear'],
  pan: ['pan_clean', 'pan_fine', 'pan_lining', 'pan_metal'],
  cooler: ['cooler_flows', 'cooler_restricted'],
};
const order = Object.keys(resultsOf);

interface Path {
  results: Result[];
  steps: Step[];
  nodes: string[];
  end: TreeNode;
}

const byId = new Map(decisionTree.map((node) => [node.id, node]));

function find(id: string): TreeNode {
  const node = byId.get(id);
  if (node === undefined) throw new Error(`no ${id}`);
  return node;
}

/** Every way from a place to an end, one for each result; a circle would make it endless, so it breaks off. */
function pathsFrom(id: string, seen: readonly string[] = []): Path[] {
  if (seen.includes(id)) throw new Error(`a circle at ${id}`);
  const node = find(id);
  const { step } = node;
  if (step === null) return [{ results: [], steps: [], nodes: [id], end: node }];
  return node.branches.flatMap((branch) =>
    branch.results.flatMap((result) =>
      pathsFrom(branch.to, [...seen, id]).map((path) => ({
        results: [result, ...path.results],
        steps: [step, ...path.steps],
        nodes: [id, ...path.nodes],
        end: path.end,
      })),
    ),
  );
}

const paths = pathsFrom(decisionTree[0]?.id ?? '');
const has = (path: Path, ...some: Result[]) => some.some((result) => path.results.includes(result));

describe('places of the tree', () => {
  it('have ids of their own', () => {
    expect(byId.size).toBe(decisionTree.length);
  });

  it.each(decisionTree.filter(({ step }) => step !== null))(
    '$id has one branch for each result of its step',
    ({ step, branches, end }) => {
      const covered = branches.flatMap(({ results }) => results);
      expect(covered.toSorted()).toEqual([...(step === null ? [] : resultsOf[step])].toSorted());
      expect(end).toBeNull();
    },
  );

  it.each(decisionTree.filter(({ step }) => step === null))('$id ends', ({ branches, end }) => {
    expect(branches).toEqual([]);
    expect(end).not.toBeNull();
  });

  it('are all reached', () => {
    const reached = new Set(paths.flatMap(({ nodes }) => nodes));
    expect(decisionTree.map(({ id }) => id).filter((id) => !reached.has(id))).toEqual([]);
  });
});

describe('every path of the tree', () => {
  it('ends, and there are many', () => {
    expect(paths.length).toBeGreaterThan(100);
    for (const { end } of paths) expect(end.end).not.toBeNull();
  });

  it('goes from cheap and outside to dear and inside, each step once', () => {
    for (const { steps } of paths) {
      const places = steps.map((step) => order.indexOf(step));
      expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
    }
  });

  it('leaves the transmission in where the electrical side failed', () => {
    const failed = paths.filter((path) =>
      has(path, 'no_current', 'current_low', 'current_high', 'current_stays'),
    );
    expect(failed.length).toBeGreaterThan(0);
    for (const { end } of failed)
      expect(end.end).toMatchObject({ work: 'outside', removesTransmission: false });
  });

  it('comes to the converter only with slip confirmed and both sides passed, or with lining or metal seen', () => {
    const opened = paths.filter(({ end }) => end.end?.work === 'converter' || end.end?.removesTransmission);
    expect(opened.length).toBeGreaterThan(0);
    for (const path of opened) {
      const proved = has(path, 'slips') && has(path, 'current_right') && has(path, 'pressure_changes');
      expect(proved || has(path, 'pan_lining', 'pan_metal'), path.results.join()).toBe(true);
      expect(path.end.end).toMatchObject({ work: 'converter', removesTransmission: true });
    }
  });

  it('works on the valve body where electrics are right and pressure stays', () => {
    const stays = paths.filter((path) => has(path, 'pressure_stays'));
    expect(stays.length).toBeGreaterThan(0);
    for (const { end } of stays) expect(end.end?.work).toBe('valve_body');
  });

  it('asks for the cooler after lining or metal, and only then', () => {
    for (const path of paths)
      expect(path.steps.includes('cooler'), path.results.join()).toBe(has(path, 'pan_lining', 'pan_metal'));
  });

  it('tests the electrical side before it says that nothing was found', () => {
    const none = paths.filter(({ end }) => end.end?.causes.includes('no_fault_found'));
    expect(none.length).toBeGreaterThan(0);
    for (const path of none) expect(has(path, 'current_right')).toBe(true);
  });

  it('drives after a wrong level was corrected', () => {
    for (const path of paths.filter((one) => has(one, 'level_low', 'level_high')))
      expect(path.steps[1]).toBe('road_test');
  });

  it('says what was not clear before anything is taken out', () => {
    for (const path of paths.filter((one) =>
      has(one, 'slip_raised', 'too_little_steady', 'pressure_unclear'),
    ))
      if (path.end.end?.removesTransmission) expect(has(path, 'pan_lining', 'pan_metal')).toBe(true);
  });
});
