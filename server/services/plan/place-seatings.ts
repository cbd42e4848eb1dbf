import { compareForSeat } from '#server/engine/planning/compare-for-seat.ts';
import type { DepotQuestion, Seating } from '#server/engine/planning/planning-model.ts';

export interface PlacedCandidate {
  /** indices of the question */
  candidate: number;
  day: number;
  bay: number;
  fromQuarter: number;
  toQuarter: number;
}

/** The bay and time of each inspection: one after the other from the beginning of its gap, those on hold first. */
export function placeSeatings(
  { days, candidates }: DepotQuestion,
  seatings: readonly Seating[],
): PlacedCandidate[] {
  return seatings.flatMap(({ day, gap, candidates: inside }) => {
    const free = days[day]?.gaps[gap];
    if (free === undefined) return [];
    let at = free.fromQuarter;
    return inside
      .toSorted(compareForSeat(candidates, (i) => candidates[i]?.values[day] ?? 0))
      .map((candidate) => {
        const fromQuarter = at;
        at += candidates[candidate]?.quarters ?? 0;
        return { candidate, day, bay: free.bay, fromQuarter, toQuarter: at };
      });
  });
}
