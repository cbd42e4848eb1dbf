import type { ComparedStanding } from '#db/queries/digest/compare-standings.ts';
import { CLEAR_RISE } from '#db/queries/standings.ts';
import type { Grade } from '#server/contract/words.ts';

/** Lines that somebody still reads. */
export const MOST_WORSE = 15;

const gravity: Record<Grade, number> = { unknown: 0, steady: 0, watch: 1, book: 2, hold: 3 };

/**
 * Vehicles that got worse between two standings, by the rule of the list's filter, the gravest first: those of a worse
 * grade, then those of the same one, book or watch, whose chance of reaching the limit within the horizon rose clearly.
 * One on hold before cannot get a worse grade.
 */
export function findWorse(
  rows: readonly ComparedStanding[],
  besides: ReadonlySet<number>,
): { shown: ComparedStanding[]; more: number } {
  const worse = rows
    .filter((row) => !besides.has(row.key) && (stepOf(row) > 0 || (stepOf(row) === 0 && isNearer(row))))
    .sort(
      (a, b) =>
        Number(stepOf(b) > 0) - Number(stepOf(a) > 0) ||
        gravity[b.after.grade] - gravity[a.after.grade] ||
        riseOf(b) - riseOf(a) ||
        a.after.rank - b.after.rank,
    );
  return { shown: worse.slice(0, MOST_WORSE), more: Math.max(0, worse.length - MOST_WORSE) };
}

const stepOf = ({ before, after }: ComparedStanding): number => gravity[after.grade] - gravity[before.grade];

const riseOf = ({ before, after }: ComparedStanding): number => (after.chance ?? 0) - (before.chance ?? 0);

const isNearer = (row: ComparedStanding): boolean =>
  (row.after.grade === 'book' || row.after.grade === 'watch') && riseOf(row) >= CLEAR_RISE;
