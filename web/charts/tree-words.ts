import type { TreeNode } from '#server/contract/test-steps.ts';
import type { OrderedBranch, OrderedStep } from './order-tree.ts';

/** The word that sets a box of the path apart where weight alone does not show. */
export const placeWords: Record<OrderedStep['place'], string | null> = {
  done: 'done',
  next: 'do this next',
  off: null,
};

export const endWord = 'the findings lead here';

export const sayBranch = ({ branch, taken }: OrderedBranch): string =>
  taken ? `found: ${branch.says}` : branch.says;

const workWords: Record<NonNullable<TreeNode['end']>['work'], string> = {
  none: 'no work on the transmission',
  outside: 'work from outside',
  valve_body: 'work on the valve body',
  converter: 'work on the converter',
};

export const sayWork = ({ work, removes_transmission }: NonNullable<TreeNode['end']>): string =>
  work === 'none'
    ? workWords.none
    : `${workWords[work]}; transmission ${removes_transmission ? 'out' : 'stays in'}`;
