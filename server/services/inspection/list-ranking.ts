import { countAssessments, listAssessments } from '#db/queries/list-assessments.ts';
import {
  mostChosen,
  type Ranking,
  type RankingQuery,
  type RankingUnits,
  type RankingUnitsQuery,
} from '#server/contract/ranking.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { orderList } from './order-list.ts';
import { toFilter } from './to-filter.ts';
import { toRankingRow } from './to-ranking-row.ts';

const ROWS = 100;

/** The inspection list. A horizon other than the usual one orders the list anew from the stored chances. */
export async function listRanking(ctx: Context, query: RankingQuery): Promise<Ranking> {
  const filter = toFilter(ctx, query);
  const units = query.units ?? 'metric';
  const now = ctx.now();
  const page = { limit: query.limit ?? ROWS, offset: query.offset ?? 0 };
  const [{ total, asOf }, book, { vehicles, places }] = await Promise.all([
    countAssessments(ctx.db, filter, now),
    readCodeBook(ctx.db),
    orderList(ctx, filter, query, page),
  ]);
  const horizonKm = query.horizon_km ?? DEFAULT_HORIZON_KM;
  const isUsual = horizonKm === DEFAULT_HORIZON_KM;
  const rows = await listAssessments(
    ctx.db,
    vehicles.map(({ key }) => key),
    now,
  );
  return {
    as_of: asOf?.toISOString() ?? null,
    horizon_km: horizonKm,
    total,
    rows: rows.map((row) => toRankingRow({ ...row, ...places.get(row.key) }, units, book, now, isUsual)),
  };
}

/** The unit numbers of the list alone, for a choice of many. */
export async function listUnits(ctx: Context, query: RankingUnitsQuery): Promise<RankingUnits> {
  const filter = toFilter(ctx, query);
  const [{ total }, { vehicles }] = await Promise.all([
    countAssessments(ctx.db, filter, ctx.now()),
    orderList(ctx, filter, query, { limit: query.limit ?? mostChosen, offset: 0 }),
  ]);
  return { total, vehicles: vehicles.map(({ unit }) => unit) };
}
