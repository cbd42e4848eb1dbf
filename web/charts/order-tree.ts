import type { Packet } from '#server/contract/packets.ts';
import type { TreeNode } from '#server/contract/test-steps.ts';

export type DecisionTree = Pick<Packet['tree'], 'nodes' | 'path'>;
export type TreeBranch = TreeNode['branches'][number];

/** A branch with the node that it leads to. */
export interface OrderedBranch {
  branch: TreeBranch;
  to: TreeNode;
  taken: boolean;
}

/** A step of the tree and where its results lead, split by what a drawing does with them. */
export interface OrderedStep {
  node: TreeNode;
  place: 'done' | 'next' | 'off';
  toEnds: OrderedBranch[];
  /** those that lead to steps further down */
  toSteps: OrderedBranch[];
}

/** Nodes from the root on, each after all that lead to it; a branch that leads back is passed over. */
function sortFrom(root: TreeNode, byId: ReadonlyMap<string, TreeNode>): TreeNode[] {
  const seen = new Set<string>();
  const sorted: TreeNode[] = [];
  const visit = (node: TreeNode) => {
    if (seen.has(node.id)) return;
    seen.add(node.id);
    for (const { to } of node.branches.toReversed()) {
      const next = byId.get(to);
      if (next !== undefined) visit(next);
    }
    sorted.unshift(node);
  };
  visit(root);
  return sorted;
}

/** The steps from top to bottom. An end that several results lead to stays one node, to be drawn once for each. */
export function orderTree({ nodes, path }: DecisionTree): OrderedStep[] {
  const byId = new Map(nodes.map((node) => [node.id, node]));
  const root = byId.get(path[0]?.node ?? nodes[0]?.id ?? '');
  if (root === undefined) return [];
  const sorted = sortFrom(root, byId);
  const rank = new Map(sorted.map((node, at) => [node.id, at]));
  const passed = new Map(path.map(({ node, result }, at) => [node, { result, to: path[at + 1]?.node }]));
  return sorted
    .filter((node) => node.end === null)
    .map((node) => {
      const here = passed.get(node.id);
      const branches = node.branches.flatMap((branch) => {
        const to = byId.get(branch.to);
        if (to === undefined || (rank.get(to.id) ?? 0) <= (rank.get(node.id) ?? 0)) return [];
        const chosen = here?.result != null && branch.results.includes(here.result);
        return [{ branch, to, taken: chosen && here.to === to.id }];
      });
      return {
        node,
        place: here === undefined ? 'off' : here.result === null ? 'next' : 'done',
        toEnds: branches.filter(({ to }) => to.end !== null),
        toSteps: branches.filter(({ to }) => to.end === null),
      };
    });
}
