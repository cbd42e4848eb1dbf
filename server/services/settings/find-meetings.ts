import type { Span } from '#server/services/bookings/object-to-time.ts';

export interface InBay extends Span {
  bay: number;
}

/** Pairs that have the same bay at the same moment: each with the ones that begin after it, or as it does. */
export function findMeetings<T extends InBay>(all: readonly T[]): [T, T][] {
  const ordered = all.toSorted((a, b) => a.bay - b.bay || a.startsAt.getTime() - b.startsAt.getTime());
  return ordered.flatMap((one, i) => {
    const met: [T, T][] = [];
    for (let next = i + 1; next < ordered.length; next += 1) {
      const other = ordered[next];
      if (other === undefined || other.bay !== one.bay || other.startsAt >= one.endsAt) break;
      met.push([one, other]);
    }
    return met;
  });
}
