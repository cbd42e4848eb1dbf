import { type ComparedStanding, compareDays, compareWithNow } from '#db/queries/digest/compare-standings.ts';
import type { SeenPart } from '#db/queries/digest/seen-part.ts';
import { findStandingsDay } from '#db/queries/standings.ts';
import type { Digest } from '#server/contract/digest.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { Context } from '#server/services/context.ts';
import { type Units, wayWords } from '#server/services/words/length-words.ts';
import { DAY_MS, type DigestWeek } from './digest-week.ts';
import { findWorse } from './find-worse.ts';

interface Told {
  comparedWith: string | null;
  lines: Omit<Digest['got_worse'][number], 'now'>[];
  more: number;
}

/** Vehicles that stand worse than a week before, without those that are told of as newly on hold. */
export async function tellWorse(
  { db }: Context,
  part: SeenPart,
  week: DigestWeek,
  newHolds: ReadonlySet<number>,
  units: Units,
): Promise<Told> {
  const day = await findStandingsDay(db, week.to);
  const later = week.current ? null : await findStandingsDay(db, new Date(week.to.getTime() + 7 * DAY_MS));
  if (day === null || day === later) return { comparedWith: null, lines: [], more: 0 };
  const rows = later === null ? await compareWithNow(db, part, day) : await compareDays(db, part, day, later);
  const { shown, more } = findWorse(rows, newHolds);
  return { comparedWith: day, more, lines: shown.map((row) => toLine(row, units)) };
}

function toLine({ unit, depot, before, after }: ComparedStanding, units: Units) {
  const km = (value: number | null) => (value === null ? null : Math.round(value));
  return {
    vehicle: unit,
    depot,
    text: worseWords({ before, after }, units),
    grade_before: before.grade,
    grade: after.grade,
    rank_before: before.rank,
    rank: after.rank,
    chance_before: before.chance,
    chance: after.chance,
    km_p50_before: km(before.kmP50),
    km_p50: km(after.kmP50),
  };
}

/** 'Book, was watch. Chance of the limit within 5,000 km: 45 %, was 12 %.' */
export function worseWords(
  { before, after }: Pick<ComparedStanding, 'before' | 'after'>,
  units: Units,
): string {
  const grade =
    before.grade === after.grade
      ? `Still ${after.grade}.`
      : `${after.grade.charAt(0).toUpperCase()}${after.grade.slice(1)}, was ${before.grade}.`;
  if (after.chance === null) return grade;
  const was = before.chance === null ? '' : `, was ${percentWords(before.chance)}`;
  return `${grade} Chance of the limit within ${wayWords(DEFAULT_HORIZON_KM, units)}: ${percentWords(after.chance)}${was}.`;
}

function percentWords(chance: number): string {
  if (chance > 0 && chance < 0.01) return 'under 1 %';
  if (chance < 1 && chance > 0.99) return 'over 99 %';
  return `${Math.round(chance * 100)} %`;
}
