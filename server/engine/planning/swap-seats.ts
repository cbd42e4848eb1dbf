import { listPlaces, type Place } from './list-places.ts';
import type { DepotQuestion, Seating } from './planning-model.ts';

/** Swaps that are weighed at the most, in less than a tenth of a second. Own choice. */
const MOST_TRIES = 1_000_000;
/** What gains less is an error of rounding. */
const LEAST_GAIN = 1e-6;

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
export function swapSeats(question: DepotQuestion, seatings: readonly Seating[]): Seating[] {
  const { candidates } = question;
  const lengths = candidates.map(({ quarters }) => quarters);
  const lengthOf = (some: readonly number[]) => some.reduce((sum, i) => sum + (lengths[i] ?? 0), 0);
  const places = listPlaces(question, seatings);
  const seated = new Set(places.flatMap(({ inside }) => inside));
  const outside = [...candidates.keys()].filter((i) => !seated.has(i));
  const waiting: Place = { day: -1, gap: -1, left: Infinity, inside: outside };
  let tries = 0;
  for (let gained = true; gained && tries < MOST_TRIES; ) {
    gained = false;
    for (const [n, a] of places.entries()) {
      for (let m = n + 1; m < places.length && tries < MOST_TRIES; m += 1) {
        const b = places[m] ?? waiting;
        gained = swapAll(a, b) || gained;
        gained = swapSingles(a, b) || gained;
      }
      gained = swapSingles(a, waiting) || gained;
    }
  }
  return places
    .map(({ day, gap, inside }) => ({ day, gap, candidates: inside.filter((i) => isWorthIt(i, day)) }))
    .filter((one) => one.candidates.length > 0);

  /** A swap that gains on the whole may leave one of the two on a day on which it is worth nothing. */
  function isWorthIt(i: number, day: number): boolean {
    return candidates[i]?.hold === true || worth(i, day) > 0;
  }

  function worth(i: number, day: number): number {
    return day < 0 ? 0 : (candidates[i]?.values[day] ?? -Infinity);
  }

  function swapSingles(a: Place, b: Place): boolean {
    if (a.day === b.day) return false;
    for (const i of a.inside)
      for (const j of b.inside) {
        tries += 1;
        const gain = worth(j, a.day) + worth(i, b.day) - worth(i, a.day) - worth(j, b.day);
        const more = (lengths[i] ?? 0) - (lengths[j] ?? 0);
        if (!(gain > LEAST_GAIN) || a.left + more < 0 || b.left - more < 0) continue;
        if (b === waiting && candidates[i]?.hold !== candidates[j]?.hold) continue;
        a.inside = [...a.inside.filter((one) => one !== i), j];
        b.inside = [...b.inside.filter((one) => one !== j), i];
        a.left += more;
        b.left -= more;
        return true;
      }
    return false;
  }

  function swapAll(a: Place, b: Place): boolean {
    tries += 1;
    let gain = 0;
    for (const i of a.inside) gain += worth(i, b.day) - worth(i, a.day);
    for (const j of b.inside) gain += worth(j, a.day) - worth(j, b.day);
    if (!(gain > LEAST_GAIN)) return false;
    const more = lengthOf(a.inside) - lengthOf(b.inside);
    if (a.left + more < 0 || b.left - more < 0) return false;
    [a.inside, b.inside] = [b.inside, a.inside];
    a.left += more;
    b.left -= more;
    return true;
  }
}
