import { type DepotPlan, planDepot } from '#server/engine/planning/plan-depot.ts';
import type { DepotQuestion, LinearSolver } from '#server/engine/planning/planning-model.ts';
import { type ExtraBay, valueExtraBay } from '#server/engine/planning/value-extra-bay.ts';
import type { SolvedDepot } from '#server/services/plan/solve-depots.ts';
import type { LoadedSolver } from './load-solver.ts';

/** For a whole plan, so that its answer comes within ten seconds. */
const MOST_MS = 8_000;
/** Of it, what plans may take before the extra bays get their turn. */
const PLANS_MS = 5_500;
/** Relaxations get so long while there is time at all: a bound of each depot is worth more than the proof of some. */
const RELAX_MS = 2_500;

/**
 * Plans depots one after the other, then what one more bay would be worth at each. Small ones come first: what they do
 * not need is left to the large ones.
 */
export function solveInTime(questions: readonly DepotQuestion[], loaded: LoadedSolver): SolvedDepot[] {
  const started = performance.now();
  const order = [...questions.keys()].sort((a, b) => sizeOf(questions[a]) - sizeOf(questions[b]));
  const inTurn = <Answer>(untilMs: number, work: (i: number, solver: LinearSolver) => Answer) => {
    const answers = new Map<number, Answer>();
    for (const [done, i] of order.entries()) {
      const now = performance.now();
      const share = Math.max(0, started + untilMs - now) / (order.length - done);
      const relaxUntil = Math.min(started + MOST_MS, now + Math.max(RELAX_MS, share));
      answers.set(i, work(i, loaded.until(now + share, relaxUntil)));
    }
    return answers;
  };
  const plans = inTurn<DepotPlan>(PLANS_MS, (i, solver) => planDepot(questions[i] ?? nothing, solver, false));
  const extras = inTurn<ExtraBay | null>(MOST_MS, (i, solver) => {
    const plan = plans.get(i);
    return plan === undefined ? null : valueExtraBay(questions[i] ?? nothing, solver, plan);
  });
  return questions.flatMap((_, i) => {
    const plan = plans.get(i);
    return plan === undefined ? [] : [{ plan, extra: extras.get(i) ?? null }];
  });
}

const nothing: DepotQuestion = { days: [], candidates: [] };

const sizeOf = ({ days, candidates }: DepotQuestion = nothing): number => days.length * candidates.length;
