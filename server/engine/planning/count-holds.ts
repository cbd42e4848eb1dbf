import type { DepotQuestion, Seating } from './planning-model.ts';

/**
 * How many on hold have a day.
 *
 * @param question the depot
 * @param seatings of it
 * @returns the number of their candidates that are on hold
 * Source: own rule. Edges: 0 where nobody has a day. Errors: none.
 * @example countHolds({ days: [], candidates: [{ hold: true, quarters: 8, values: [] }] }, [{ day: 0, gap: 0, candidates: [0] }]) // 1
 */
export function countHolds({ candidates }: DepotQuestion, seatings: readonly Seating[]): number {
  return seatings.reduce((sum, one) => sum + one.candidates.filter((i) => candidates[i]?.hold).length, 0);
}
