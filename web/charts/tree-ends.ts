import type { OrderedBranch, OrderedStep } from './order-tree.ts';

/** Ways to one box: one, or several whose ends all stand further up already. */
export interface EndRow {
  ways: [OrderedBranch, ...OrderedBranch[]];
  isAgain: boolean;
}

const LEAST_TO_JOIN = 2;

/** The end boxes of each step: ends that were drawn before share one box, for a sheet has room for each but once. */
export function rowEnds(steps: readonly OrderedStep[]): Map<OrderedStep, EndRow[]> {
  const drawn = new Set<string>();
  const rows = new Map<OrderedStep, EndRow[]>();
  for (const step of steps) {
    const again = step.toEnds.filter((way) => drawn.has(way.to.id) && !way.taken);
    const [first, ...others] = again.length < LEAST_TO_JOIN ? [] : again;
    const own = step.toEnds.filter((way) => first === undefined || !again.includes(way));
    rows.set(step, [
      ...own.map((way): EndRow => ({ ways: [way], isAgain: false })),
      ...(first === undefined ? [] : [{ ways: [first, ...others], isAgain: true } satisfies EndRow]),
    ]);
    for (const way of own) drawn.add(way.to.id);
  }
  return rows;
}
