import { compareForSeat } from './compare-for-seat.ts';
import { maySit } from './may-sit.ts';
import type { DepotQuestion, Seating } from './planning-model.ts';

/**
 * A plan without a solver: one vehicle after the other takes its best day with room.
 *
 * Vehicles on hold first, short inspections before long ones among them; then by value per quarter of an hour on the
 * best day. Each takes the day that is worth most to it, there the gap that it fills best. It is a first solution to
 * start from, and what is left where a solver fails.
 *
 * @param question the depot
 * @param given    seatings that stay as they are
 * @returns seatings with those given, gap by gap
 * Source: greedy heuristic, own rule. Edges: who fits nowhere is left out. Errors: none.
 * @example seatGreedily({ days: [], candidates: [] }, []) // []
 */
export function seatGreedily(question: DepotQuestion, given: readonly Seating[]): Seating[] {
  const { days, candidates } = question;
  const seatings = given.map((one) => ({ ...one, candidates: [...one.candidates] }));
  const at = new Map(seatings.map((one) => [`${one.day} ${one.gap}`, one]));
  const left = days.map(({ gaps }) => gaps.map(({ fromQuarter, toQuarter }) => toQuarter - fromQuarter));
  const take = (day: number, gap: number, candidate: number) => {
    const own = left[day];
    if (own !== undefined) own[gap] = (own[gap] ?? 0) - (candidates[candidate]?.quarters ?? 0);
  };
  for (const one of seatings) for (const candidate of one.candidates) take(one.day, one.gap, candidate);
  const seated = new Set(seatings.flatMap((one) => one.candidates));
  const best = (i: number) => Math.max(...(candidates[i]?.values ?? []).map((value) => value ?? -Infinity));
  const worth = (i: number) => {
    const quarters = candidates[i]?.quarters ?? 1;
    return candidates[i]?.hold === true ? -quarters : best(i) / quarters;
  };
  const order = [...candidates.keys()].filter((i) => !seated.has(i)).sort(compareForSeat(candidates, worth));
  for (const i of order) {
    const candidate = candidates[i];
    if (candidate === undefined) continue;
    const byValue = days
      .map((_, day) => day)
      .filter((day) => maySit(candidate, days, day, false))
      .sort((a, b) => (candidate.values[b] ?? 0) - (candidate.values[a] ?? 0) || a - b);
    for (const day of byValue) {
      const gap = tightestGap(left[day] ?? [], candidate.quarters);
      if (gap === null) continue;
      const key = `${day} ${gap}`;
      const seating = at.get(key) ?? { day, gap, candidates: [] };
      if (!at.has(key)) seatings.push(seating);
      at.set(key, seating);
      seating.candidates.push(i);
      take(day, gap, i);
      break;
    }
  }
  return seatings;
}

function tightestGap(left: readonly number[], quarters: number): number | null {
  let found: number | null = null;
  for (const [gap, room] of left.entries())
    if (room >= quarters && (found === null || room < (left[found] ?? 0))) found = gap;
  return found;
}
