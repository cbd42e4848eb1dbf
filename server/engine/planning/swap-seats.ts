import type { DepotQuestion, Seating } from './planning-model.ts';

/** Passes over all pairs at the most. Own choice. */
const MOST_PASSES = 20;
/** What gains less is an error of rounding. */
const LEAST_GAIN = 1e-6;

interface Place {
  day: number;
  gap: number;
  room: number;
  inside: number[];
}

/**
 * A plan of higher value by swaps, with as many on hold.
 *
 * Pairs of gaps change what they hold, pairs of vehicles in two gaps change their places, and a vehicle that waits takes
 * the place of one that is as much on hold as it is: wherever both fit and the sum of values rises, until nothing does.
 *
 * @param question the depot
 * @param seatings that fit, without the extra bay
 * @returns seatings that fit, worth no less
 * Source: 2-exchange local search, own rule. Edges: as they were where no swap gains. Errors: none.
 * @example swapSeats({ days: [], candidates: [] }, []) // []
 */
export function swapSeats({ days, candidates }: DepotQuestion, seatings: readonly Seating[]): Seating[] {
  const places = days.flatMap(({ gaps }, day) =>
    gaps.map(({ fromQuarter, toQuarter }, gap): Place => {
      const inside = seatings
        .filter((one) => one.day === day && one.gap === gap)
        .flatMap((one) => one.candidates);
      return { day, gap, room: toQuarter - fromQuarter, inside };
    }),
  );
  const seated = new Set(places.flatMap(({ inside }) => inside));
  const waiting: Place = {
    day: -1,
    gap: -1,
    room: Infinity,
    inside: [...candidates.keys()].filter((i) => !seated.has(i)),
  };
  for (let pass = 0; pass < MOST_PASSES; pass += 1) {
    let gained = false;
    for (const [n, a] of places.entries()) {
      for (const b of places.slice(n + 1)) {
        gained = swap(a, b, a.inside, b.inside) || gained;
        gained = swapSingles(a, b) || gained;
      }
      gained = swapSingles(a, waiting) || gained;
    }
    if (!gained) break;
  }
  return places
    .map(({ day, gap, inside }) => ({ day, gap, candidates: inside.filter((i) => isWorthIt(i, day)) }))
    .filter((one) => one.candidates.length > 0);

  /** A swap that gains on the whole may leave one of the two on a day on which it is worth nothing. */
  function isWorthIt(i: number, day: number): boolean {
    const one = candidates[i];
    return one !== undefined && (one.hold || (one.values[day] ?? 0) > 0);
  }

  function swapSingles(a: Place, b: Place): boolean {
    if (a.day === b.day) return false;
    for (const i of a.inside)
      for (const j of b.inside)
        if ((b !== waiting || candidates[i]?.hold === candidates[j]?.hold) && swap(a, b, [i], [j]))
          return true;
    return false;
  }

  /** Swaps some of what two places hold, where that fits and gains. */
  function swap(a: Place, b: Place, fromA: readonly number[], fromB: readonly number[]): boolean {
    const gain = worth(fromB, a) + worth(fromA, b) - worth(fromA, a) - worth(fromB, b);
    if (!(gain > LEAST_GAIN)) return false;
    const nowA = [...a.inside.filter((i) => !fromA.includes(i)), ...fromB];
    const nowB = [...b.inside.filter((i) => !fromB.includes(i)), ...fromA];
    if (length(nowA) > a.room || (b !== waiting && length(nowB) > b.room)) return false;
    a.inside = nowA;
    b.inside = nowB;
    return true;
  }

  function worth(some: readonly number[], at: Place): number {
    if (at === waiting) return 0;
    return some.reduce((sum, i) => sum + (candidates[i]?.values[at.day] ?? -Infinity), 0);
  }

  function length(some: readonly number[]): number {
    return some.reduce((sum, i) => sum + (candidates[i]?.quarters ?? 0), 0);
  }
}
