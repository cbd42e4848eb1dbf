import { countAssessments, listFacts } from '#db/queries/list-assessments.ts';
import { depots } from '#db/schema/fleet.ts';
import type { Outlook, RankingQuery } from '#server/contract/ranking.ts';
import { grades } from '#server/contract/words.ts';
import { chanceAt } from '#server/services/assessment/horizon.ts';
import type { StoredFacts } from '#server/services/assessment/stored-assessment.ts';
import type { Context } from '#server/services/context.ts';
import { toFilter } from './list-ranking.ts';

const WEEKS = 12;
const WORKING_DAYS = 5;
const DAY_MS = 86_400_000;

/** Vehicles by grade, and when the drifting ones reach their limits, week by week, beside the bay days there are. */
export async function lookAhead(
  ctx: Context,
  query: Pick<RankingQuery, 'depot' | 'platform' | 'grade' | 'q'>,
): Promise<Outlook> {
  const filter = toFilter(ctx, query);
  const { grades: _, ...anyGrade } = filter;
  const [{ byGrade, asOf }, rows, allDepots] = await Promise.all([
    countAssessments(ctx.db, anyGrade),
    listFacts(ctx.db, filter),
    ctx.db.select().from(depots),
  ]);
  const bays = allDepots
    .filter(({ id }) => filter.depot === undefined || id === filter.depot)
    .filter(({ id }) => filter.sight.depots?.includes(id) ?? true)
    .reduce((sum, depot) => sum + depot.bays, 0);
  const now = ctx.now();
  const monday = mondayOf(now);
  const overdue = rows.filter((row) => row.kmP50 === 0);
  const drifting = rows.filter((row) => row.kmP50 !== null && row.kmP50 > 0);
  const weeks = Array.from({ length: WEEKS }, (_week, i) => {
    const startMs = Math.max(monday + i * 7 * DAY_MS, now.getTime());
    const endMs = monday + (i + 1) * 7 * DAY_MS;
    const ahead = (ms: number) => (ms - now.getTime()) / DAY_MS;
    const within = (row: (typeof rows)[number], days: number) =>
      chanceAt((row.facts as StoredFacts).chances, days * (row.kmPerDay ?? 0));
    return {
      week: new Date(monday + i * 7 * DAY_MS).toISOString().slice(0, 10),
      expected: round(
        drifting.reduce((sum, row) => sum + within(row, ahead(endMs)) - within(row, ahead(startMs)), 0),
      ),
      vehicles: drifting
        .filter((row) => {
          if (row.kmPerDay === null || row.kmPerDay <= 0 || row.kmP50 === null || row.kmP50 === 0)
            return false;
          const days = row.kmP50 / row.kmPerDay;
          return days >= ahead(startMs) && days < ahead(endMs);
        })
        .map((row) => ({ vehicle: row.unit, grade: row.grade })),
      bay_days: Math.round((bays * WORKING_DAYS * (endMs - startMs)) / (7 * DAY_MS)),
    };
  });
  return {
    as_of: asOf?.toISOString() ?? null,
    counts: Object.fromEntries(grades.map((grade) => [grade, byGrade.get(grade) ?? 0])) as Outlook['counts'],
    overdue: overdue.map((row) => ({ vehicle: row.unit, grade: row.grade })),
    weeks,
  };
}

function mondayOf(moment: Date): number {
  const midnight = Date.UTC(moment.getUTCFullYear(), moment.getUTCMonth(), moment.getUTCDate());
  return midnight - ((moment.getUTCDay() + 6) % 7) * DAY_MS;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
