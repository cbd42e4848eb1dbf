import type { DepotQuestion, Seating } from './planning-model.ts';

/** A gap of a day with who is inspected in it. */
export interface Place {
  day: number;
  gap: number;
  /** free, quarters of an hour */
  left: number;
  /** indices of candidates */
  inside: number[];
}

/**
 * Every gap of a depot, with who is inspected in it and what that leaves.
 *
 * @param question the depot
 * @param seatings that fit, without the extra bay
 * @returns places, day by day, in the order of the gaps
 * Source: own rule. Edges: a gap that nobody has is whole. Errors: none.
 * @example listPlaces({ days: [], candidates: [] }, []) // []
 */
export function listPlaces({ days, candidates }: DepotQuestion, seatings: readonly Seating[]): Place[] {
  return days.flatMap(({ gaps }, day) =>
    gaps.map(({ fromQuarter, toQuarter }, gap) => {
      const inside = seatings
        .filter((one) => one.day === day && one.gap === gap)
        .flatMap((one) => one.candidates);
      const taken = inside.reduce((sum, i) => sum + (candidates[i]?.quarters ?? 0), 0);
      return { day, gap, left: toQuarter - fromQuarter - taken, inside };
    }),
  );
}
