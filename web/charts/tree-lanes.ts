import type { OrderedBranch, OrderedStep } from './order-tree.ts';

export interface TreeLanes {
  count: number;
  of: ReadonlyMap<OrderedBranch, number>;
}

/** Lanes for the ways that pass over steps: two that run side by side have two; those to one step may share one. */
export function placeLanes(steps: readonly OrderedStep[]): TreeLanes {
  const rank = new Map(steps.map(({ node }, at) => [node.id, at]));
  const rankOf = (way: OrderedBranch) => rank.get(way.to.id) ?? 0;
  const taken: { to: string; until: number }[] = [];
  const of = new Map<OrderedBranch, number>();
  steps.forEach(({ toSteps }, at) => {
    for (const way of toSteps.toSorted((a, b) => rankOf(a) - rankOf(b))) {
      const until = rankOf(way);
      if (until === at + 1) continue;
      const shared = taken.findIndex((lane) => lane.to === way.to.id || lane.until < at);
      const lane = shared === -1 ? taken.length : shared;
      taken[lane] = { to: way.to.id, until };
      of.set(way, lane);
    }
  });
  return { count: taken.length, of };
}
