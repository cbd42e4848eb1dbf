import type { Preview } from '#server/contract/settings.ts';
import { formatWhole } from '#web/format/format-number.ts';

const count = (n: number, one: string, many: string): string => `${formatWhole(n)} ${n === 1 ? one : many}`;

/** What a change would do, in one sentence. */
export function sayEffect({ vehicles, regraded, reranked }: Preview): string {
  if (vehicles === 0) return 'No vehicle is in the list yet.';
  if (regraded === 0 && reranked === 0) return 'Nothing in the list would change.';
  const places = count(reranked, 'vehicle changes its place', 'vehicles change their place');
  if (regraded === 0) return `No grade would change; ${places}.`;
  const grades = count(regraded, 'vehicle changes its grade', 'vehicles change their grade');
  return reranked === 0 ? `${grades}; no place would change.` : `${grades}, ${places}.`;
}

/** '12 to 9', or where nothing moves the number alone. */
export const sayMove = (before: number, after: number): string =>
  before === after ? formatWhole(after) : `${formatWhole(before)} → ${formatWhole(after)}`;
