import { countHolds } from './count-holds.ts';
import { maySit } from './may-sit.ts';
import type { DepotQuestion, Seating } from './planning-model.ts';
import { seatGreedily } from './seat-greedily.ts';

interface Trade {
  seating: Seating;
  out: number;
  into: number[];
  holds: number;
  value: number;
}

/**
 * Gives a day to more vehicles on hold, by trades within one gap.
 *
 * One vehicle leaves its gap, and as many waiting on hold as then fit take its place, the shortest first. Of all trades the
 * one is made that gives most of them a day, and loses least. Who left takes another place where there is one.
 *
 * @param question the depot
 * @param seatings that fit
 * @param least    how many on hold are to have a day
 * @returns seatings that fit, with at least as many on hold as before; fewer than asked for where no trade helps
 * Source: exchange heuristic, own rule. Edges: as they were where enough have a day. Errors: none.
 * @example raiseHolds({ days: [], candidates: [] }, [], 0) // []
 */
export function raiseHolds(
  question: DepotQuestion,
  seatings: readonly Seating[],
  least: number,
): readonly Seating[] {
  let best = seatings;
  while (countHolds(question, best) < least) {
    const trade = findTrade(question, best);
    if (trade === null) return best;
    const { seating, out, into } = trade;
    const traded = best.map((one) =>
      one === seating ? { ...one, candidates: [...one.candidates.filter((i) => i !== out), ...into] } : one,
    );
    best = seatGreedily(question, traded);
  }
  return best;
}

function findTrade({ days, candidates }: DepotQuestion, seatings: readonly Seating[]): Trade | null {
  const seated = new Set(seatings.flatMap((one) => one.candidates));
  const waiting = [...candidates.keys()]
    .filter((i) => candidates[i]?.hold === true && !seated.has(i))
    .sort((a, b) => lengthOf(a) - lengthOf(b) || a - b);
  let best: Trade | null = null;
  for (const seating of seatings) {
    const { day, gap } = seating;
    const at = days[day];
    const room = at?.gaps[gap] ?? at?.extra;
    if (room === undefined) continue;
    const taken = seating.candidates.reduce((sum, i) => sum + lengthOf(i), 0);
    for (const out of seating.candidates) {
      let left = room.toQuarter - room.fromQuarter - taken + lengthOf(out);
      const into: number[] = [];
      for (const i of waiting) {
        const one = candidates[i];
        if (one === undefined || one.quarters > left || !maySit(one, days, day, true)) continue;
        into.push(i);
        left -= one.quarters;
      }
      const holds = into.length - Number(candidates[out]?.hold ?? false);
      const value = into.reduce((sum, i) => sum + valueOn(i, day), -valueOn(out, day));
      if (holds > 0 && (best === null || holds > best.holds || (holds === best.holds && value > best.value)))
        best = { seating, out, into, holds, value };
    }
  }
  return best;

  function lengthOf(i: number): number {
    return candidates[i]?.quarters ?? 0;
  }
  function valueOn(i: number, day: number): number {
    return candidates[i]?.values[day] ?? 0;
  }
}
