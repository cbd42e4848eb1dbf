import type { TreeNode } from '#server/contract/test-steps.ts';
import type { OrderedBranch, OrderedStep } from './order-tree.ts';

/** The word that sets a box of the path apart where weight alone does not show. */
export const placeWords: Record<OrderedStep['place'], string | null> = {
  done: 'done',
  next: 'do this next',
  off: null,
};

export const endWord = 'the findings lead here';

/** Of ends that stand further up in the drawing. */
export const againWords = 'each ends as it does further up';

export const sayBranch = ({ branch, taken }: OrderedBranch): string =>
  taken ? `found: ${branch.says}` : branch.says;

const workWords: Record<NonNullable<TreeNode['end']>['work'], string> = {
  none: 'nothing to open',
  outside: 'outside the transmission',
  valve_body: 'work on the valve body',
  converter: 'work on the converter',
};

/** Where the work would be, and whether the transmission comes out for it. */
export const sayWork = ({ work, removes_transmission }: NonNullable<TreeNode['end']>): string =>
  `${workWords[work]}${removes_transmission ? ', transmission out' : ''}`;
