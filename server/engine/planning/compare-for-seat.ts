import type { Candidate } from './planning-model.ts';

/**
 * Order in which candidates are given places: those on hold first, then by what they are worth, then as they came.
 *
 * @param candidates of the depot
 * @param worth      of a candidate, by its index
 * @returns a comparison of two indices
 * Source: own rule. Edges: none. Errors: none.
 * @example compareForSeat([{ hold: false, quarters: 8, values: [] }, { hold: true, quarters: 8, values: [] }], () => 0)(0, 1) > 0 // true
 */
export function compareForSeat(
  candidates: readonly Candidate[],
  worth: (candidate: number) => number,
): (a: number, b: number) => number {
  const holds = (i: number) => Number(candidates[i]?.hold ?? false);
  return (a, b) => holds(b) - holds(a) || worth(b) - worth(a) || a - b;
}
