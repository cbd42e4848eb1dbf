import type { DepotPlan } from '#server/engine/planning/plan-depot.ts';
import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import type { ExtraBay } from '#server/engine/planning/value-extra-bay.ts';

export interface SolvedDepot {
  plan: DepotPlan;
  /** null where it could not be computed in time */
  extra: ExtraBay | null;
}

/** Solves depots, each by itself, in their order. Whoever calls a plan says where: it takes seconds of a processor. */
export type SolveDepots = (questions: readonly DepotQuestion[]) => Promise<SolvedDepot[]>;
