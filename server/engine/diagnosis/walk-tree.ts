import type { Result, Step, TreeNode } from './diagnosis-model.ts';

/** Where the findings lead. */
export interface Walk {
  /** from the root; the last has no result where it is the step to do, or an end */
  path: { node: string; result: Result | null }[];
  /** the step to do; null at an end */
  next: Step | null;
  /** id of the end; null while there is a step to do */
  end: string | null;
  /** steps that no way from here leads to, each with the place and the result that led past it */
  notNeeded: { step: Step; node: string; result: Result }[];
  /** what was found in steps that the path does not ask for, or not yet */
  aside: { step: Step; result: Result }[];
}

/**
 * Way through the decision tree.
 *
 * From the root, the result of each place's step says which branch is taken, until a step has no result or an end is
 * reached. A step is not needed once no place of it can be reached from where the path stands.
 *
 * @param tree    its places, the root first
 * @param results the last result of each step that was done
 * @returns path, the next step or the end, steps not needed, and results that the path does not use
 * Source: own rule. Edges: results of later steps wait until the path asks for them. Errors: throws where the tree names
 * a place that it does not have, or a result has no branch.
 * @example walkTree(decisionTree, { fluid: 'coolant_in_fluid' }).end // 'coolant'
 */
export function walkTree(tree: readonly TreeNode[], results: Partial<Record<Step, Result>>): Walk {
  const places = new Map(tree.map((node) => [node.id, node]));
  const place = (id: string | undefined): TreeNode => {
    const found = id === undefined ? undefined : places.get(id);
    if (found === undefined) throw new Error(`walkTree requires a tree that has ${id ?? 'a root'}`);
    return found;
  };
  let node = place(tree[0]?.id);
  const path: Walk['path'] = [];
  const asked = new Set<Step>();
  const notNeeded: Walk['notNeeded'] = [];
  for (;;) {
    const result = node.step === null ? undefined : results[node.step];
    path.push({ node: node.id, result: result ?? null });
    if (node.step === null) break;
    asked.add(node.step);
    if (result === undefined) break;
    const branch = node.branches.find((one) => one.results.includes(result));
    if (branch === undefined) throw new Error(`walkTree requires a branch for ${result} at ${node.id}`);
    const [before, from] = [stepsFrom(node, place), node.id];
    node = place(branch.to);
    const after = stepsFrom(node, place);
    for (const step of before)
      if (!after.has(step) && !asked.has(step)) notNeeded.push({ step, node: from, result });
  }
  const done = Object.entries(results) as [Step, Result][];
  return {
    path,
    next: node.step,
    end: node.step === null ? node.id : null,
    notNeeded,
    aside: done.filter(([step]) => !asked.has(step)).map(([step, result]) => ({ step, result })),
  };
}

function stepsFrom(
  from: TreeNode,
  place: (id: string) => TreeNode,
  steps = new Set<Step>(),
  seen = new Set<string>(),
): Set<Step> {
  if (seen.has(from.id)) return steps;
  seen.add(from.id);
  if (from.step !== null) steps.add(from.step);
  for (const branch of from.branches) stepsFrom(place(branch.to), place, steps, seen);
  return steps;
}
