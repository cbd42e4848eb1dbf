import { type DepotPlan, planDepot } from '#server/engine/planning/plan-depot.ts';
import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import { type ExtraBay, valueExtraBay } from '#server/engine/planning/value-extra-bay.ts';
import type { SolvedDepot } from '#server/services/plan/solve-depots.ts';
import type { LoadedSolver } from './load-solver.ts';

/** For a whole plan, so that its answer comes within ten seconds. */
const MOST_MS = 8_500;
/** Of it, what plans may take before the extra bays get their turn. */
const PLANS_MS = 6_000;
/** Each depot's plan gets so long, while there is time at all: else not even a bound is known of the last ones. */
const LEAST_MS = 500;

/**
 * Plans depots one after the other, then what one more bay would be worth at each. Small ones come first: what they do
 * not need is left to the large ones.
 */
export function solveInTime(questions: readonly DepotQuestion[], solver: LoadedSolver): SolvedDepot[] {
  const started = performance.now();
  const order = [...questions.keys()].sort((a, b) => sizeOf(questions[a]) - sizeOf(questions[b]));
  const inTurn = <Answer>(untilMs: number, work: (i: number, deadlineMs: number) => Answer) => {
    const answers = new Map<number, Answer>();
    for (const [done, i] of order.entries()) {
      const now = performance.now();
      const share = Math.max(LEAST_MS, (started + untilMs - now) / (order.length - done));
      answers.set(i, work(i, Math.min(started + MOST_MS, now + share)));
    }
    return answers;
  };
  const plans = inTurn<DepotPlan>(PLANS_MS, (i, deadlineMs) =>
    planDepot(questions[i] ?? nothing, solver.until(deadlineMs), false),
  );
  const extras = inTurn<ExtraBay | null>(MOST_MS, (i, deadlineMs) => {
    const plan = plans.get(i);
    return plan === undefined ? null : valueExtraBay(questions[i] ?? nothing, solver.until(deadlineMs), plan);
  });
  return questions.flatMap((_, i) => {
    const plan = plans.get(i);
    return plan === undefined ? [] : [{ plan, extra: extras.get(i) ?? null }];
  });
}

const nothing: DepotQuestion = { days: [], candidates: [] };

const sizeOf = ({ days, candidates }: DepotQuestion = nothing): number => days.length * candidates.length;
