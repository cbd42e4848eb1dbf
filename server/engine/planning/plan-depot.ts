import { buildPlanModel } from './build-plan-model.ts';
import { maySit } from './may-sit.ts';
import type { DepotQuestion, LinearSolver, PlanGoal, Seating } from './planning-model.ts';
import { pullForward } from './pull-forward.ts';
import { readSeatings } from './read-seatings.ts';
import { seatGreedily } from './seat-greedily.ts';
import { solveByPrice } from './solve-by-price.ts';
import { writeSeatings } from './write-seatings.ts';

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
  const solve = (goal: PlanGoal, seatings: readonly Seating[]) => {
    const model = buildPlanModel(question, goal);
    const start = writeSeatings(question, model, seatings);
    const { values, bound } = solveByPrice(model.linear, solver, start, goal.kind === 'holds');
    return {
      seatings: values === null ? seatings : readSeatings(question, model, values),
      most: model.complete && bound < Infinity ? bound : null,
    };
  };
  const first = seatGreedily(question, known);
  const able = countAble(question, extra);
  let [seatings, mostHolds]: [readonly Seating[], number | null] = [first, able];
  if (countHolds(question, first) < able) {
    const found = solve({ kind: 'holds', extra }, first);
    mostHolds = found.most;
    if (countHolds(question, found.seatings) > countHolds(question, first)) seatings = found.seatings;
  }
  const holds = countHolds(question, seatings);
  const start = seatings === first ? first : seatGreedily(question, seatings);
  const found = solve({ kind: 'value', extra, leastHolds: holds }, start);
  const best = extra ? found.seatings : pullForward(question, found.seatings);
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

const countHolds = ({ candidates }: DepotQuestion, seatings: readonly Seating[]): number =>
  seatings.reduce((sum, one) => sum + one.candidates.filter((i) => candidates[i]?.hold).length, 0);

const sumValue = ({ candidates }: DepotQuestion, seatings: readonly Seating[]): number =>
  seatings.reduce(
    (sum, { day, candidates: inside }) =>
      sum + inside.reduce((own, i) => own + (candidates[i]?.values[day] ?? 0), 0),
    0,
  );

/** Vehicles on hold that fit somewhere, were they alone. */
const countAble = ({ days, candidates }: DepotQuestion, extra: boolean): number =>
  candidates.filter((one) => one.hold && days.some((_, day) => maySit(one, days, day, extra))).length;
