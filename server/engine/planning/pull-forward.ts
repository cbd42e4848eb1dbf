import { compareForSeat } from './compare-for-seat.ts';
import { listPlaces } from './list-places.ts';
import { maySit } from './may-sit.ts';
import type { DepotQuestion, Seating } from './planning-model.ts';

/**
 * Moves inspections to earlier days where there is room and nothing is lost.
 *
 * Waiting costs a vehicle that stands nothing, so that a plan that is proved the best may still leave an early bay empty
 * and a vehicle on hold for the last day. Those on hold move first, then the dearest; each to its earliest day with room
 * on which it is worth at least as much.
 *
 * @param question the depot
 * @param seatings that fit
 * @returns seatings that fit, worth no less
 * Source: own rule. Edges: nothing moves where nothing is free. Errors: none.
 * @example pullForward({ days: [], candidates: [] }, []) // []
 */
export function pullForward(question: DepotQuestion, seatings: readonly Seating[]): Seating[] {
  const { days, candidates } = question;
  const places = listPlaces(question, seatings);
  const seated = places.flatMap((from) => from.inside.map((candidate) => ({ candidate, from })));
  const worthOn = (candidate: number, day: number) => candidates[candidate]?.values[day] ?? -Infinity;
  const compare = compareForSeat(candidates, (i) => {
    const day = seated.find(({ candidate }) => candidate === i)?.from.day ?? -1;
    return worthOn(i, day);
  });
  for (const { candidate, from } of seated.toSorted((a, b) => compare(a.candidate, b.candidate))) {
    const own = candidates[candidate];
    if (own === undefined) continue;
    const to = places.find(
      ({ day, left }) =>
        day < from.day &&
        left >= own.quarters &&
        maySit(own, days, day, false) &&
        worthOn(candidate, day) >= worthOn(candidate, from.day),
    );
    if (to === undefined) continue;
    from.inside = from.inside.filter((i) => i !== candidate);
    from.left += own.quarters;
    to.inside = [...to.inside, candidate];
    to.left -= own.quarters;
  }
  return places.flatMap(({ day, gap, inside }) =>
    inside.length === 0 ? [] : [{ day, gap, candidates: inside }],
  );
}
