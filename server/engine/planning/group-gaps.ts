import type { BayGap } from './planning-model.ts';

/** Gaps of one day into which the same inspections fit. */
export interface GapGroup {
  /** what can be filled of them, quarters of an hour */
  room: number;
  /** indices of the gaps */
  gaps: number[];
}

/**
 * Gaps of one day, joined where they can hold the same inspections.
 *
 * The room of a gap is the longest sum of inspections that is no longer than it: what is left beyond that is of no use,
 * so that gaps of 5 h and of 5.25 h are one where inspections take 2 or 3 h.
 *
 * @param gaps    of the day
 * @param lengths of the inspections, quarters of an hour
 * @returns groups with falling room; gaps that hold no inspection are left out
 * Source: own rule, subset sums by dynamic programming (Bellman 1957). Edges: no gap, no group. Errors: none.
 * @example groupGaps([{ bay: 1, fromQuarter: 0, toQuarter: 21 }], [8, 12]) // [{ room: 20, gaps: [0] }]
 */
export function groupGaps(gaps: readonly BayGap[], lengths: readonly number[]): GapGroup[] {
  const longest = gaps.reduce((most, gap) => Math.max(most, gap.toQuarter - gap.fromQuarter), 0);
  const roomWithin = [0];
  for (let length = 1; length <= longest; length += 1)
    roomWithin.push(
      lengths.some((one) => one <= length && roomWithin[length - one] === length - one)
        ? length
        : (roomWithin[length - 1] ?? 0),
    );
  const groups = new Map<number, number[]>();
  for (const [i, gap] of gaps.entries()) {
    const room = roomWithin[gap.toQuarter - gap.fromQuarter] ?? 0;
    if (room > 0) groups.set(room, [...(groups.get(room) ?? []), i]);
  }
  return [...groups].map(([room, own]) => ({ room, gaps: own })).sort((a, b) => b.room - a.room);
}
