import { buildPlanModel, type PlanModel } from './build-plan-model.ts';
import { countHolds } from './count-holds.ts';
import { diveForPlan } from './dive-for-plan.ts';
import { fixPackings } from './fix-packings.ts';
import { maySit } from './may-sit.ts';
import type { DepotQuestion, LinearSession, LinearSolver, PlanGoal, Seating } from './planning-model.ts';
import { pullForward } from './pull-forward.ts';
import { raiseHolds } from './raise-holds.ts';
import { readSeatings } from './read-seatings.ts';
import { seatGreedily } from './seat-greedily.ts';
import { solveByPrice } from './solve-by-price.ts';
import { swapSeats } from './swap-seats.ts';
import { writeSeatings } from './write-seatings.ts';

/** Share of the time left in which it is proved how many on hold can get a day. Own choice. */
const HOLDS_TIME = 0.4;

/** Who is inspected in which gap, how much that is worth, and how much more it could be. */
export interface DepotPlan {
  seatings: Seating[];
  /** how many on hold have a day */
  holds: number;
  /** no plan gives more of them a day; null where nobody knows */
  mostHolds: number | null;
  /** expected cost avoided, less inspections */
  value: number;
  /** no plan with at least as many on hold is worth more; null where nobody knows */
  mostValue: number | null;
  /** proved to be the best: most on hold first, then the highest value */
  optimal: boolean;
}

/**
 * Best plan of one depot.
 *
 * In two steps, as one comes before the other whatever it costs: first how many vehicles on hold can get a day at all,
 * then the plan of highest value among those that give so many a day.
 *
 * @param question the depot
 * @param solver   of linear models
 * @param extra    whether one bay more on one day may be used
 * @param known    a plan to begin with, without that bay
 * @returns the plan
 * Source: lexicographic goal programming, A. Charnes and W. W. Cooper 1961 (from memory), on {@link buildPlanModel}.
 * Edges: an empty plan where nobody may be inspected; where time ran out, the best plan found, with what is known of the
 * distance. Errors: none.
 * @example planDepot({ days: [], candidates: [] }, solver, false).optimal // true
 */
export function planDepot(
  question: DepotQuestion,
  solver: LinearSolver,
  extra: boolean,
  known: readonly Seating[] = [],
): DepotPlan {
  const solve = (goal: PlanGoal, start: readonly Seating[]) => solveGoal(question, solver, goal, start);
  const first = seatGreedily(question, known);
  const able = countAble(question, extra);
  let [seatings, mostHolds]: [readonly Seating[], number | null] = [first, able];
  if (countHolds(question, first) < able) {
    const found = solve({ kind: 'holds', extra }, first);
    mostHolds = found.most;
    if (countHolds(question, found.seatings) > countHolds(question, first)) seatings = found.seatings;
  }
  const holds = countHolds(question, seatings);
  const start = extra
    ? seatGreedily(question, seatings)
    : swapSeats(question, seatGreedily(question, seatings));
  const found = solve({ kind: 'value', extra, leastHolds: holds }, start);
  const best = extra ? found.seatings : pullForward(question, seatGreedily(question, found.seatings));
  const value = sumValue(question, best);
  const got = countHolds(question, best);
  return {
    seatings: [...best],
    holds: got,
    mostHolds,
    value,
    mostValue: found.most === null ? null : Math.max(value, found.most),
    optimal: got === mostHolds && found.most !== null && found.most - value <= 1e-5 + 1e-8 * Math.abs(value),
  };
}

/** The best seatings for one goal, and what nothing can exceed; null where nobody knows. */
function solveGoal(
  question: DepotQuestion,
  solver: LinearSolver,
  goal: PlanGoal,
  start: readonly Seating[],
): { seatings: readonly Seating[]; most: number | null } {
  const model = buildPlanModel(question, goal);
  if (model.columns.length === 0) return { seatings: [], most: 0 };
  const explored = solver.explore(model.linear, (session) =>
    explore(model, session, writeSeatings(question, model, start)),
  );
  if (explored?.relaxed == null) return { seatings: start, most: null };
  const least = goal.kind === 'value' ? goal.leastHolds : Infinity;
  const from = explored.found
    .map((values) => seatGreedily(question, readSeatings(question, model, values)))
    .map((seatings) => raiseHolds(question, seatings, least))
    .map((seatings) => (goal.kind === 'holds' || goal.extra ? seatings : swapSeats(question, seatings)))
    .reduce((best, one) => (isBetter(question, goal, one, best) ? one : best), start);
  const known = writeSeatings(question, model, from);
  const { values, bound } = solveByPrice(
    model.linear,
    solver,
    explored.relaxed,
    known,
    goal.kind === 'holds' ? { whole: true, timeShare: HOLDS_TIME } : { whole: false, timeShare: 1 },
  );
  return {
    seatings: values === null ? from : readSeatings(question, model, values),
    most: model.complete && bound < Infinity ? bound : null,
  };
}

/** The relaxation, and plans to begin with: one from there, and the best with the packings of one that is known. */
function explore(model: PlanModel, session: LinearSession, known: readonly number[] | null) {
  const relaxed = session.relax();
  if (relaxed === null) return { relaxed, found: [] };
  const dived = diveForPlan(model, relaxed, session);
  const dealt = known && fixPackings(model, known, session);
  return { relaxed, found: [dived, dealt].flatMap((one) => (one === null ? [] : [one.values])) };
}

function isBetter(
  question: DepotQuestion,
  goal: PlanGoal,
  one: readonly Seating[],
  other: readonly Seating[],
): boolean {
  if (goal.kind === 'holds') return countHolds(question, one) > countHolds(question, other);
  return countHolds(question, one) >= goal.leastHolds && sumValue(question, one) > sumValue(question, other);
}

const sumValue = ({ candidates }: DepotQuestion, seatings: readonly Seating[]): number =>
  seatings.reduce(
    (sum, { day, candidates: inside }) =>
      sum + inside.reduce((own, i) => own + (candidates[i]?.values[day] ?? 0), 0),
    0,
  );

/** Vehicles on hold that fit somewhere, were they alone. */
const countAble = ({ days, candidates }: DepotQuestion, extra: boolean): number =>
  candidates.filter((one) => one.hold && days.some((_, day) => maySit(one, days, day, extra))).length;
