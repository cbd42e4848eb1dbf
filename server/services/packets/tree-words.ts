import type { TreeNode } from '#server/contract/test-steps.ts';
import { decisionTree } from '#server/engine/diagnosis/decision-tree.ts';
import type { Walk } from '#server/engine/diagnosis/walk-tree.ts';
import { resultWords } from './cause-words.ts';

/** The decision tree in the contract's shape. */
export function toTree(): TreeNode[] {
  return decisionTree.map(({ id, step, title, branches, end }) => ({
    id,
    step,
    title,
    branches: branches.map(({ results, says, to }) => ({ results: [...results], says, to })),
    end:
      end === null
        ? null
        : {
            words: end.words,
            work: end.work,
            removes_transmission: end.removesTransmission,
            causes: [...end.causes],
          },
  }));
}

/** Why a step is not needed: 'Not needed after: no current'. */
export function whyNotNeeded({ result }: Walk['notNeeded'][number]): string {
  const words = resultWords[result];
  return `Not needed after: ${words.charAt(0).toLowerCase()}${words.slice(1)}.`;
}
