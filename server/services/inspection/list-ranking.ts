import { type ListedKey, listAssessments } from '#db/queries/list-assessments.ts';
import {
  mostChosen,
  type Ranking,
  type RankingQuery,
  type RankingRow,
  type RankingUnits,
  type RankingUnitsQuery,
} from '#server/contract/ranking.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { countListed } from './count-listed.ts';
import { orderList } from './order-list.ts';
import type { Place } from './place-fleet.ts';
import { toFilter } from './to-filter.ts';
import { toRankingRow } from './to-ranking-row.ts';

const ROWS = 100;
const MOST_ROWS = 100_000;
const ROWS_AT_ONCE = 500;

/** The inspection list. A horizon other than the usual one orders the list anew from the stored chances. */
export async function listRanking(ctx: Context, query: RankingQuery): Promise<Ranking> {
  const filter = toFilter(ctx, query);
  const page = { limit: query.limit ?? ROWS, offset: query.offset ?? 0 };
  const [{ total, asOf }, rowsOf, { vehicles, places }] = await Promise.all([
    countListed(ctx, filter),
    prepareRows(ctx, query),
    orderList(ctx, filter, query, page),
  ]);
  return {
    as_of: asOf?.toISOString() ?? null,
    horizon_km: query.horizon_km ?? DEFAULT_HORIZON_KM,
    total,
    rows: await rowsOf(vehicles, places),
  };
}

/** The whole list, some rows after the other, so that ten thousand of them hold up nobody else. */
export async function* listAllRows(ctx: Context, query: RankingQuery): AsyncGenerator<RankingRow[]> {
  const filter = toFilter(ctx, query);
  const [rowsOf, { vehicles, places }] = await Promise.all([
    prepareRows(ctx, query),
    orderList(ctx, filter, query, { limit: MOST_ROWS, offset: 0 }),
  ]);
  for (let from = 0; from < vehicles.length; from += ROWS_AT_ONCE)
    yield rowsOf(vehicles.slice(from, from + ROWS_AT_ONCE), places);
}

type RowsOf = (vehicles: readonly ListedKey[], places: ReadonlyMap<number, Place>) => Promise<RankingRow[]>;

/** What all rows of one answer have in common. */
async function prepareRows(
  ctx: Context,
  { units = 'metric', horizon_km = DEFAULT_HORIZON_KM }: RankingQuery,
): Promise<RowsOf> {
  const book = await readCodeBook(ctx.db);
  const now = ctx.now();
  const isUsual = horizon_km === DEFAULT_HORIZON_KM;
  return async (vehicles, places) => {
    const rows = await listAssessments(
      ctx.db,
      vehicles.map(({ key }) => key),
      now,
    );
    return rows.map((row) => toRankingRow({ ...row, ...places.get(row.key) }, units, book, now, isUsual));
  };
}

/** The unit numbers of the list alone, for a choice of many. */
export async function listUnits(ctx: Context, query: RankingUnitsQuery): Promise<RankingUnits> {
  const filter = toFilter(ctx, query);
  const [{ total }, { vehicles }] = await Promise.all([
    countListed(ctx, filter),
    orderList(ctx, filter, query, { limit: query.limit ?? mostChosen, offset: 0 }),
  ]);
  return { total, vehicles: vehicles.map(({ unit }) => unit) };
}
