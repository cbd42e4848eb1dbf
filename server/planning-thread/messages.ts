import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import type { SolvedDepot } from '#server/services/plan/solve-depots.ts';

/** What the process asks of its planning thread: one plan, depot by depot. */
export interface ToThread {
  questions: readonly DepotQuestion[];
}

/** The depots in the order asked; `fault` is what the solver died of, after which the thread is of no more use. */
export interface FromThread {
  solved: SolvedDepot[];
  fault: string | null;
}
