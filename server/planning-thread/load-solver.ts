import loadHighs, { type Model } from 'highs';
import type { LinearModel, LinearSolver } from '#server/engine/planning/planning-model.ts';

export interface LoadedSolver {
  /**
   * A solver that ends by a moment, as `performance.now()` counts. Relaxations, which are short and without which nothing
   * is known, may have longer.
   */
  until(deadlineMs: number, relaxUntilMs?: number): LinearSolver;
  /** What the solver died of; from then on it finds nothing. */
  fault(): string | null;
}

/** Less time than this is none. */
const LEAST_S = 0.02;

/**
 * Measured on plans of depots: with a pool of cuts as large as is usual, and heuristics that solve parts of the model as
 * models of their own, most of the time goes into those. The plan has a good solution already when it comes here.
 */
const options = {
  output_flag: false,
  mip_rel_gap: 0,
  mip_pool_soft_limit: 100,
  mip_heuristic_run_rins: false,
  mip_heuristic_run_rens: false,
  mip_heuristic_run_root_reduced_cost: false,
};

/** HiGHS, compiled to WebAssembly. Solving keeps the thread that calls busy. */
export async function loadSolver(): Promise<LoadedSolver> {
  const highs = await loadHighs();
  const { maximize } = highs.constants.objectiveSense;
  const { optimal, infeasible } = highs.constants.modelStatus;
  const { feasible } = highs.constants.solutionStatus;
  let fault: string | null = null;

  const toData = (
    { gains, lower, upper, rowLower, rowUpper, starts, rows, coefficients }: LinearModel,
    whole: boolean,
  ) => ({
    numCols: gains.length,
    numRows: rowLower.length,
    sense: maximize,
    colCost: gains,
    colLower: lower,
    colUpper: upper,
    rowLower,
    rowUpper,
    matrix: {
      format: 'csc' as const,
      numRows: rowLower.length,
      numCols: gains.length,
      starts,
      indices: rows,
      values: coefficients,
    },
    ...(whole ? { integrality: gains.map(() => highs.constants.variableType.integer) } : {}),
  });

  /** After an error inside the solver its memory is in no known state. */
  function run<Answer>(
    data: ReturnType<typeof toData>,
    seconds: number,
    read: (model: Model) => Answer,
  ): Answer | null {
    if (fault !== null || seconds < LEAST_S) return null;
    try {
      return highs.withModel(data, (model) => {
        model.options.set({ ...options, time_limit: seconds });
        return read(model);
      });
    } catch (error) {
      fault = error instanceof Error ? error.message : String(error);
      return null;
    }
  }

  const until = (deadlineMs: number, relaxUntilMs = deadlineMs): LinearSolver => ({
    explore: (model, work) =>
      run(toData(model, false), leftUntil(relaxUntilMs), (native) =>
        work({
          relax() {
            const seconds = leftUntil(relaxUntilMs);
            if (seconds < LEAST_S) return null;
            native.zeroAllClocks();
            native.options.set('time_limit', seconds);
            native.run();
            if (native.getModelStatus() !== optimal) return null;
            const { colValue, colDual } = native.getSolution();
            return { bound: native.getObjectiveValue(), values: colValue, marginals: colDual };
          },
          bound(column, lower, upper) {
            native.changeColBounds(column, lower, upper);
          },
        }),
      ),
    solve: (model, start, timeShare) =>
      run(toData(model, true), timeShare * leftUntil(deadlineMs), (native) => {
        if (start !== null) native.setSolution({ colValue: Array.from(start) });
        native.run();
        const status = native.getModelStatus();
        if (status === infeasible) return { values: null, bound: null, proved: true };
        const has = native.info.get('primal_solution_status') === feasible;
        const bound = Number(native.info.get('mip_dual_bound'));
        return {
          values: has ? native.getSolution().colValue : null,
          bound: Number.isFinite(bound) ? bound : null,
          proved: status === optimal,
        };
      }) ?? { values: null, bound: null, proved: false },
  });
  return { until, fault: () => fault };
}

const leftUntil = (deadlineMs: number): number => Math.min(3600, (deadlineMs - performance.now()) / 1000);
