/** Steps in which slip is counted before quantiles are taken, rpm: a quantile is right to within one. */
export const FINE_SLIP_RPM = 0.5;
export const COMMAND_STEP_PCT = 5;
export const FLUID_STEP_C = 5;

/** The scale goes so far beyond the limit, as a share of it. */
const BEYOND_LIMIT = 1.2;
const MOST_SLIP_STEPS = 90;
/** Multiples of the fine step, so that no fine step lies on both sides of an edge. */
const slipSteps = [1, 2, 2.5, 5, 10, 20, 25, 50, 100];

/** Edges of slip from 0 to a round value above the limit. */
export function edgesOfSlip(limitRpm: number): number[] {
  const end = limitRpm * BEYOND_LIMIT;
  const step = slipSteps.find((one) => end / one <= MOST_SLIP_STEPS) ?? 100;
  return listEdges(0, Math.ceil(end / step), step);
}

/** Edges of the steps numbered from `first` to `last`, the last not included. */
export const listEdges = (first: number, last: number, step: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
