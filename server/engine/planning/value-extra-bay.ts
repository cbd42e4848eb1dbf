import { type DepotPlan, planDepot } from './plan-depot.ts';
import type { DepotQuestion, LinearSolver } from './planning-model.ts';

/** What one more bay on one day would be worth. */
export interface ExtraBay {
  /** index of the day on which it is worth most; null where it is worth nothing */
  day: number | null;
  worth: number;
  /** more vehicles on hold that would get a day */
  holds: number;
}

/**
 * Worth of one more bay on one day.
 *
 * The whole is planned once more with a bay that may stand on any one day, empty and for the hours of that day: the
 * difference of the two best plans is the worth, and not what a dual price promises. Where more vehicles on hold get a
 * day, the difference may be negative: they come first, whatever it costs.
 *
 * @param question the depot
 * @param solver   of linear models
 * @param plan     the best plan without that bay
 * @returns the worth; null where either plan could not be proved the best in time
 * Source: own rule. Edges: no day where it changes nothing. Errors: none.
 * @example valueExtraBay({ days: [], candidates: [] }, solver, planDepot({ days: [], candidates: [] }, solver, false)) // { day: null, worth: 0, holds: 0 }
 */
export function valueExtraBay(
  question: DepotQuestion,
  solver: LinearSolver,
  plan: DepotPlan,
): ExtraBay | null {
  if (!plan.optimal) return null;
  const nothing = { day: null, worth: 0, holds: 0 };
  const seated = new Set(plan.seatings.flatMap(({ candidates }) => candidates));
  if (isBestOfAll(question, plan, seated)) return nothing;
  const more = planDepot(question, solver, true, plan.seatings);
  if (!more.optimal) return null;
  const used = more.seatings.find(({ day, gap }) => gap === question.days[day]?.gaps.length);
  const [worth, holds] = [more.value - plan.value, more.holds - plan.holds];
  return used === undefined || (holds === 0 && worth <= 1e-5) ? nothing : { day: used.day, worth, holds };
}

/** Whether everybody who may be inspected has the day that is worth most to them. */
function isBestOfAll(
  { candidates }: DepotQuestion,
  { seatings }: DepotPlan,
  seated: ReadonlySet<number>,
): boolean {
  const best = candidates.map(({ values }) => Math.max(...values.map((value) => value ?? -Infinity)));
  const left = candidates.some(
    (one, i) => !seated.has(i) && ((best[i] ?? 0) > 0 || (one.hold && (best[i] ?? 0) > -Infinity)),
  );
  return (
    !left &&
    seatings.every(({ day, candidates: inside }) =>
      inside.every((i) => (candidates[i]?.values[day] ?? 0) >= (best[i] ?? 0)),
    )
  );
}
