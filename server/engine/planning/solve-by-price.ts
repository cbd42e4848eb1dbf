import type { LinearModel, LinearSolver, Relaxed } from './planning-model.ts';

/** What is found at first is looked for among columns that cost at most this share of what can be gained. Own choice. */
const FIRST_REACH = 0.0002;
/** How much wider it is looked where that was too narrow. Own choice. */
const WIDEN = 8;
/** Share of the time left that a first, narrow search may take. Own choice. */
const NARROW_TIME = 0.5;

export interface WholeSolution {
  /** of the columns, whole; null where none was found */
  values: readonly number[] | null;
  /** what they gain; -Infinity where there are none */
  gain: number;
  /** nothing gains more; Infinity where not even that is known */
  bound: number;
}

/**
 * Best solution of a linear model in whole numbers, by the prices of its relaxation.
 *
 * The relaxation gives a bound B and for each column j its marginal gain m_j <= 0: a solution that uses j gains B + m_j
 * at the most. So where z is gained already, columns with m_j < z - B cannot be part of anything better, and the model
 * without them has the same best solution. Plans of bays leave some hundred of several thousand columns. As long as
 * no good z is known, columns with m_j >= -reach are tried, with a reach that widens until it covers B - z.
 * Where gains are whole, only what gains z + 1 matters.
 *
 * @param model   as {@link LinearModel} says, its columns from 0 up
 * @param solver  that solves it
 * @param relaxed its relaxation
 * @param start   a solution that is known, whole; null where none is
 * @param how     whether every gain of a whole solution is a whole number, and which share of the time left to take
 * @returns the best solution found, with the bound: the two are one, to a millionth, where it is proved
 * Source: reduced cost fixing, H. Crowder, E. L. Johnson and M. Padberg, Solving large-scale zero-one linear programming
 * problems, 1983 (from memory). Edges: where the solver runs out of time, what is known so far. Errors: none.
 * @example solveByPrice(model, solver, relaxed, null, { whole: false, timeShare: 1 }).bound // nothing gains more
 */
export function solveByPrice(
  model: LinearModel,
  solver: LinearSolver,
  relaxed: Relaxed,
  start: readonly number[] | null,
  { whole, timeShare }: { whole: boolean; timeShare: number },
): WholeSolution {
  const slack = 1e-6 + 1e-9 * Math.abs(relaxed.bound);
  let best: WholeSolution = { values: null, gain: -Infinity, bound: Infinity };
  const take = (values: readonly number[] | null) => {
    const gain = values === null ? -Infinity : sumGains(model, values);
    if (gain > best.gain) best = { ...best, values, gain };
  };
  const lower = (bound: number) => {
    best = { ...best, bound: Math.min(best.bound, whole ? Math.floor(bound + slack) : bound) };
  };
  /** Columns that cost more than this cannot be part of anything better. */
  const wanted = () => Math.max(0, relaxed.bound - best.gain - (whole ? 1 : 0));

  take(start);
  lower(relaxed.bound);
  let reach = Math.min(FIRST_REACH * Math.abs(relaxed.bound), wanted());
  while (best.bound - best.gain > slack) {
    const isLast = reach >= wanted();
    const kept = keepColumns(
      model,
      (j) => (relaxed.marginals[j] ?? 0) >= -reach - 3 * slack || (best.values?.[j] ?? 0) > 0,
    );
    const narrow = solver.solve(
      kept.model,
      kept.narrow(best.values),
      isLast ? timeShare : NARROW_TIME * timeShare,
    );
    take(narrow.values === null ? null : kept.widen(narrow.values));
    const inside = narrow.proved ? best.gain : (narrow.bound ?? Infinity);
    lower(kept.isAll ? inside : Math.max(inside, relaxed.bound - reach - 3 * slack));
    if (isLast || kept.isAll) break;
    reach = narrow.proved && wanted() > 4 * reach ? WIDEN * reach : wanted();
  }
  return best;
}

const sumGains = ({ gains }: LinearModel, values: readonly number[]): number =>
  values.reduce((sum, value, j) => sum + value * (gains[j] ?? 0), 0);

/** The model with some of its columns, and the ways there and back of its solutions. */
function keepColumns(model: LinearModel, keeps: (column: number) => boolean) {
  const kept = [...model.gains.keys()].filter(keeps);
  const narrow: LinearModel = {
    ...model,
    gains: kept.map((j) => model.gains[j] ?? 0),
    lower: kept.map((j) => model.lower[j] ?? 0),
    upper: kept.map((j) => model.upper[j] ?? 0),
    starts: [0],
    rows: [],
    coefficients: [],
  };
  for (const j of kept) {
    for (let at = model.starts[j] ?? 0; at < (model.starts[j + 1] ?? 0); at += 1) {
      narrow.rows.push(model.rows[at] ?? 0);
      narrow.coefficients.push(model.coefficients[at] ?? 0);
    }
    narrow.starts.push(narrow.rows.length);
  }
  return {
    model: narrow,
    isAll: kept.length === model.gains.length,
    narrow: (values: readonly number[] | null) => values && kept.map((j) => values[j] ?? 0),
    widen: (values: ArrayLike<number>) => {
      const all = model.gains.map(() => 0);
      for (const [i, j] of kept.entries()) all[j] = Math.round(values[i] ?? 0);
      return all;
    },
  };
}
