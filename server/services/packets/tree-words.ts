import type { TreeNode } from '#server/contract/test-steps.ts';
import { decisionTree } from '#server/engine/diagnosis/decision-tree.ts';
import type { Result } from '#server/engine/diagnosis/diagnosis-model.ts';
import type { Walk } from '#server/engine/diagnosis/walk-tree.ts';
import { resultWords } from './result-words.ts';

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

const inSentence = (result: Result) => {
  const words = resultWords[result];
  return `${words.charAt(0).toLowerCase()}${words.slice(1)}`;
};

const UNCLEAR: ReadonlySet<Result> = new Set(['slip_raised', 'too_little_steady', 'pressure_unclear']);

/** Why a step is not needed: 'Not needed after this: no current.' */
export const whyNotNeeded = ({ result }: Walk['notNeeded'][number]): string =>
  `Not needed after this: ${inSentence(result)}.`;

/** Why the next step is next; null at an end. */
export function whyNext({ path, next }: Pick<Walk, 'path' | 'next'>): string | null {
  if (next === null) return null;
  const last = path.findLast(({ result }) => result !== null)?.result ?? null;
  if (last === null) return 'First: it costs nothing and opens nothing.';
  if (UNCLEAR.has(last)) return `Before this: ${inSentence(last)}. Repeat that, or go on here.`;
  return last === 'level_low' || last === 'level_high'
    ? `Before this: ${inSentence(last)}. Correct it, then drive.`
    : `Before this: ${inSentence(last)}.`;
}
