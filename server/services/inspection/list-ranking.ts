import { inArray } from 'drizzle-orm';
import {
  countAssessments,
  type ListFilter,
  listAssessments,
  listAssessmentsByKey,
  listFacts,
} from '#db/queries/list-assessments.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { Ranking, RankingQuery } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { expectAvoidedCost } from '#server/engine/ranking/expect-avoided-cost.ts';
import { SlipdriftError } from '#server/errors.ts';
import { chanceAt, DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { StoredFacts } from '#server/services/assessment/stored-assessment.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { toRankingRow } from './to-ranking-row.ts';

const ROWS = 100;

/** The inspection list. A horizon other than the usual one orders the list anew from the stored chances. */
export async function listRanking(ctx: Context, query: RankingQuery): Promise<Ranking> {
  const filter = toFilter(ctx, query);
  const horizonKm = query.horizon_km ?? DEFAULT_HORIZON_KM;
  const units = query.units ?? 'metric';
  const now = ctx.now();
  const limit = query.limit ?? ROWS;
  const offset = query.offset ?? 0;
  const [{ total, asOf }, book] = await Promise.all([countAssessments(ctx.db, filter), readCodeBook(ctx.db)]);
  const envelope = { as_of: asOf?.toISOString() ?? null, horizon_km: horizonKm, total };
  const sort = query.sort ?? 'rank';
  const usual = horizonKm === DEFAULT_HORIZON_KM;
  if (usual || (sort !== 'rank' && sort !== 'chance')) {
    const rows = await listAssessments(ctx.db, filter, sort, limit, offset, now);
    const chances = new Map(
      usual ? [] : (await chancesAt(ctx, filter, horizonKm)).map((one) => [one.key, one]),
    );
    return {
      ...envelope,
      rows: rows.map((row) => toRankingRow({ ...row, ...chances.get(row.key) }, units, book, now)),
    };
  }
  const ordered = await chancesAt(ctx, filter, horizonKm);
  ordered.sort((a, b) => (sort === 'chance' ? b.chance - a.chance : b.costAvoided - a.costAvoided));
  const page = ordered.slice(offset, offset + limit).map((one, i) => ({ ...one, rank: offset + i + 1 }));
  const rows = new Map(
    (
      await listAssessmentsByKey(
        ctx.db,
        page.map(({ key }) => key),
        now,
      )
    ).map((row) => [row.key, row]),
  );
  return {
    ...envelope,
    rows: page.flatMap((one) => {
      const row = rows.get(one.key);
      return row === undefined ? [] : [toRankingRow({ ...row, ...one }, units, book, now)];
    }),
  };
}

/** Filters of a query; a word that is no grade is refused. */
export function toFilter(
  { actor }: Pick<Context, 'actor'>,
  query: Pick<RankingQuery, 'depot' | 'platform' | 'grade' | 'q'>,
): ListFilter {
  const words = query.grade?.split(',').filter((word) => word !== '');
  const unknown = words?.find((word) => !grades.some((grade) => grade === word));
  if (unknown !== undefined)
    throw new SlipdriftError(
      'invalid_request',
      `'${unknown}' is no grade. Grades are ${grades.join(', ')}.`,
      {
        errors: [{ field: 'grade', message: `must be one or several of ${grades.join(', ')}` }],
      },
    );
  return {
    sight: sightOf(actor),
    depot: query.depot,
    platform: query.platform,
    q: query.q,
    grades: words === undefined || words.length === 0 ? undefined : (words as Grade[]),
  };
}

async function chancesAt(ctx: Context, filter: ListFilter, horizonKm: number) {
  const rows = await listFacts(ctx.db, filter);
  const names = [...new Set(rows.flatMap(({ platform }) => (platform === null ? [] : [platform])))];
  const known =
    names.length === 0 ? [] : await ctx.db.select().from(platforms).where(inArray(platforms.id, names));
  const costs = new Map(known.map((platform) => [platform.id, toEngineSettings(platform)]));
  const assumed = toEngineSettings(null);
  return rows.map(({ key, platform, facts }) => {
    const { chances, codes } = facts as StoredFacts;
    const expected = expectAvoidedCost(
      chanceAt(chances, horizonKm),
      codes,
      costs.get(platform ?? '') ?? assumed,
    );
    return { key, ...expected };
  });
}
