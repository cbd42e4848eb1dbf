import { type ListedKey, type ListSort, listKeys } from '#db/queries/list-assessments.ts';
import type { ListFilter } from '#db/queries/list-filter.ts';
import type { RankingQuery } from '#server/contract/ranking.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { Context } from '#server/services/context.ts';
import { type Place, placeFleet } from './place-fleet.ts';

interface Order {
  vehicles: ListedKey[];
  /** where the vehicles stand within another horizon than the usual one, whose places are stored */
  places: ReadonlyMap<number, Place>;
}

/** One page of the list, by keys and unit numbers alone. */
export async function orderList(
  ctx: Context,
  filter: ListFilter,
  { horizon_km, sort = 'rank' }: Pick<RankingQuery, 'horizon_km' | 'sort'>,
  page: { limit: number; offset: number },
): Promise<Order> {
  const now = ctx.now();
  if (horizon_km === undefined || horizon_km === DEFAULT_HORIZON_KM)
    return { vehicles: await listKeys(ctx.db, filter, sort, page, now), places: new Map() };
  const moves = sort === 'rank' || sort === 'chance';
  const [vehicles, places] = await Promise.all([
    listKeys(ctx.db, filter, sort, moves ? null : page, now),
    placeFleet(ctx, horizon_km),
  ]);
  if (!moves) return { vehicles, places };
  const { offset, limit } = page;
  return { vehicles: inPlace(vehicles, places, sort).slice(offset, offset + limit), places };
}

function inPlace(
  vehicles: readonly ListedKey[],
  places: ReadonlyMap<number, Place>,
  sort: ListSort,
): ListedKey[] {
  const of = ({ key }: ListedKey): Place =>
    places.get(key) ?? { rank: Number.MAX_SAFE_INTEGER, chance: 0, costAvoided: 0 };
  return vehicles.toSorted((a, b) => {
    const [first, second] = [of(a), of(b)];
    return (sort === 'chance' ? second.chance - first.chance : 0) || first.rank - second.rank;
  });
}
