/** A free stretch of one bay on one day, in quarters of an hour since 1970 (UTC). */
export interface BayGap {
  bay: number;
  fromQuarter: number;
  toQuarter: number;
}

/** One working day of a depot. */
export interface BayDay {
  gaps: readonly BayGap[];
  /** what one more bay would have free on it */
  extra: Pick<BayGap, 'fromQuarter' | 'toQuarter'>;
}

/** A vehicle that could be inspected. */
export interface Candidate {
  /** not to be dispatched before inspection: such vehicles come first, whatever they cost */
  hold: boolean;
  /** how long the inspection has a bay */
  quarters: number;
  /** expected cost avoided by inspecting on each day, less the inspection; null where the vehicle cannot be taken */
  values: readonly (number | null)[];
}

/** What is to be planned of one depot. Vehicles are bound to it, so that depots do not meet. */
export interface DepotQuestion {
  days: readonly BayDay[];
  candidates: readonly Candidate[];
}

/** Who is inspected in one gap, as indices of candidates; their lengths fit into it together. */
export interface Seating {
  day: number;
  /** index within the gaps of its day; the extra bay comes after them */
  gap: number;
  candidates: number[];
}

/** What is to be made most of: how many on hold get a day, or the cost avoided with at least so many of them. */
export type PlanGoal =
  | { kind: 'holds'; extra: boolean }
  | { kind: 'value'; extra: boolean; leastHolds: number };

/** What a column of the model stands for. */
export type PlanColumn =
  | { kind: 'seat'; candidate: number; day: number }
  | { kind: 'packing'; day: number; group: number; packing: readonly number[] }
  | { kind: 'extra'; day: number }
  | { kind: 'short' };

/**
 * A linear model to be made most of in whole numbers. The matrix stands column by column: column j has the rows and
 * coefficients from starts[j] to starts[j + 1].
 */
export interface LinearModel {
  gains: number[];
  lower: number[];
  upper: number[];
  rowLower: number[];
  rowUpper: number[];
  starts: number[];
  rows: number[];
  coefficients: number[];
}

/** The best solution of a model without whole numbers. */
export interface Relaxed {
  bound: number;
  values: ArrayLike<number>;
  /** what one more of each column would change: not above 0 where it is at its lower end */
  marginals: ArrayLike<number>;
}

/** One model without whole numbers, relaxed again and again while ends of its columns change, each time from where it was. */
export interface LinearSession {
  /** null where there is no solution, or no time */
  relax(): Relaxed | null;
  bound(column: number, lower: number, upper: number): void;
}

/** What solves linear models. It is given from outside: loading one takes files and time. */
export interface LinearSolver {
  /** Without whole numbers; null where there is no time to begin, or the solver fails. */
  explore<Answer>(model: LinearModel, work: (session: LinearSession) => Answer): Answer | null;
  /**
   * In whole numbers, from a solution that is known, within a share of the time that is left: the best that was found,
   * what nothing can exceed, and whether the two were proved to be one.
   */
  solve(
    model: LinearModel,
    start: ArrayLike<number> | null,
    timeShare: number,
  ): { values: ArrayLike<number> | null; bound: number | null; proved: boolean };
}
