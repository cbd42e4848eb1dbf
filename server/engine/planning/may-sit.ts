import type { BayDay, Candidate } from './planning-model.ts';

/**
 * Whether a candidate is worth a place on a day, and one could be long enough.
 *
 * It can be taken on that day, inspecting it avoids more than it costs or it is on hold, and its inspection fits into
 * the longest gap of the day were that empty.
 *
 * @param candidate the vehicle
 * @param days      working days, in order
 * @param day       index of the day
 * @param extra     whether one more bay counts
 * @returns true where it may be given that day
 * Source: own rule. Edges: false on a day that is not there. Errors: none.
 * @example maySit({ hold: false, quarters: 8, values: [null] }, [], 0, false) // false
 */
export function maySit(candidate: Candidate, days: readonly BayDay[], day: number, extra: boolean): boolean {
  const at = days[day];
  const value = candidate.values[day] ?? null;
  if (at === undefined || value === null || (!candidate.hold && value <= 0)) return false;
  const gaps = extra ? [...at.gaps, at.extra] : at.gaps;
  return gaps.some(({ fromQuarter, toQuarter }) => toQuarter - fromQuarter >= candidate.quarters);
}
