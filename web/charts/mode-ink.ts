import type { LivesGroup } from '#server/contract/lives.ts';
import { mostDrawnGroups } from './group-ink.ts';

/** Modes of all groups, the most frequent first: by it each keeps its tone from one group to the next. */
export function orderModes(groups: readonly Pick<LivesGroup, 'cumulative_incidence'>[]): string[] {
  const events = new Map<string, number>();
  for (const { mode, events: failed } of groups.flatMap((group) => group.cumulative_incidence))
    events.set(mode, (events.get(mode) ?? 0) + failed);
  return [...events]
    .toSorted(([a, aFailed], [b, bFailed]) => bFailed - aFailed || a.localeCompare(b, 'en'))
    .map(([mode]) => mode);
}

/** Which ink each of the drawn modes has: that of its place in the order, or one that is left. */
export function inksOfModes(drawn: readonly string[], order: readonly string[]): number[] {
  const placeOf = (mode: string) => {
    const place = order.indexOf(mode);
    return place < mostDrawnGroups ? place : -1;
  };
  const taken = new Set(drawn.map(placeOf));
  const left = Array.from({ length: mostDrawnGroups }, (_, ink) => ink).filter((ink) => !taken.has(ink));
  return drawn.map((mode) => {
    const place = placeOf(mode);
    return place >= 0 ? place : (left.shift() ?? 0);
  });
}
