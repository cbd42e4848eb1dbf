import type { Line } from '#server/services/intake/line.ts';

/** Moments that wait for more of their values; beyond this the one that opened first is taken as it is. */
export const MOST_OPEN_MOMENTS = 50_000;
const MOST_OPEN_CHARACTERS = 33_554_432;
/** A window holds a few moments; a file in which it held thousands would take for ever. */
const MOST_LOOKED_AT = 64;

export interface Moment {
  vehicle: string;
  atMs: number;
  line: number;
  raws: string[];
  characters: number;
  value: Record<string, unknown>;
  /** names that have come, a bit each */
  seen: number;
}

/**
 * Holds the moments of a long layout until all their names have come. Rows may come by time or by name: so that a moment
 * is not closed when a later one begins, it waits until it is whole, the file ends, or too many are open.
 */
export function createOpenMoments(windowMs: number, whole: number) {
  const open = new Set<Moment>();
  const byVehicle = new Map<string, Map<number, Set<Moment>>>();
  let characters = 0;
  const bucketOf = (atMs: number) => (windowMs === 0 ? atMs : Math.floor(atMs / windowMs));

  const close = (moment: Moment): Line => {
    open.delete(moment);
    characters -= moment.characters;
    const buckets = byVehicle.get(moment.vehicle);
    const key = bucketOf(moment.atMs);
    const bucket = buckets?.get(key);
    bucket?.delete(moment);
    if (bucket?.size === 0) buckets?.delete(key);
    if (buckets?.size === 0) byVehicle.delete(moment.vehicle);
    return {
      line: moment.line,
      raw: moment.raws.join('\n'),
      value: { vehicle: moment.vehicle, at: new Date(moment.atMs).toISOString(), ...moment.value },
      errors: null,
    };
  };

  return {
    /** the open moment nearest to this time that lacks this name; without a name, any */
    find(vehicle: string, atMs: number, bit: number): Moment | undefined {
      const buckets = byVehicle.get(vehicle);
      if (buckets === undefined) return undefined;
      if (windowMs === 0) {
        const [only] = buckets.get(atMs) ?? [];
        return only;
      }
      const key = bucketOf(atMs);
      let nearest: Moment | undefined;
      for (let at = key - 1; at <= key + 1; at++) {
        let looked = 0;
        for (const moment of buckets.get(at) ?? []) {
          looked += 1;
          if (looked > MOST_LOOKED_AT) break;
          const apart = Math.abs(moment.atMs - atMs);
          if (apart > windowMs || (moment.seen & bit) !== 0) continue;
          if (nearest === undefined || apart < Math.abs(nearest.atMs - atMs)) nearest = moment;
        }
      }
      return nearest;
    },
    begin(vehicle: string, atMs: number, line: number): Moment {
      const moment: Moment = { vehicle, atMs, line, raws: [], characters: 0, value: {}, seen: 0 };
      open.add(moment);
      const buckets = byVehicle.get(vehicle) ?? new Map<number, Set<Moment>>();
      byVehicle.set(vehicle, buckets);
      const bucket = buckets.get(bucketOf(atMs));
      if (bucket === undefined) buckets.set(bucketOf(atMs), new Set([moment]));
      else bucket.add(moment);
      return moment;
    },
    /** takes a row into a moment; answers the moments that this closes */
    add(moment: Moment, raw: string, bit: number): Line[] {
      moment.raws.push(raw);
      moment.characters += raw.length;
      characters += raw.length;
      moment.seen |= bit;
      const closed = moment.seen === whole ? [close(moment)] : [];
      while (open.size > MOST_OPEN_MOMENTS || characters > MOST_OPEN_CHARACTERS) {
        const [oldest] = open;
        if (oldest === undefined) break;
        closed.push(close(oldest));
      }
      return closed;
    },
    closeAll: (): Line[] => [...open].map(close),
  };
}
