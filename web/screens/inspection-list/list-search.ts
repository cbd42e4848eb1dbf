import { type RankingQuery, rankingQuery } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';

/** All of the list's state that a link should carry. */
export interface ListSearch {
  depot?: string;
  platform?: string;
  grade?: string;
  q?: string;
  horizon_km?: number;
  sort?: NonNullable<RankingQuery['sort']>;
  /** the row that is opened in place */
  open?: string;
  /** up to three vehicles, joined by commas */
  compare?: string;
}

export const mostCompared = 3;

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseListSearch(raw: Record<string, unknown>): ListSearch {
  const { shape } = rankingQuery;
  const search: ListSearch = {};
  const depot = shape.depot.safeParse(raw.depot).data;
  if (depot) search.depot = depot;
  const platform = shape.platform.safeParse(raw.platform).data;
  if (platform) search.platform = platform;
  const grade = typeof raw.grade === 'string' ? joinGrades(splitGrades(raw.grade)) : undefined;
  if (grade !== undefined) search.grade = grade;
  const q = shape.q.safeParse(raw.q).data?.trim();
  if (q) search.q = q;
  const horizon = shape.horizon_km.safeParse(raw.horizon_km);
  if (horizon.success && horizon.data !== undefined) search.horizon_km = horizon.data;
  const sort = shape.sort.safeParse(raw.sort).data;
  if (sort !== undefined && sort !== 'rank') search.sort = sort;
  if (typeof raw.open === 'string' && raw.open !== '') search.open = raw.open;
  const chosen = typeof raw.compare === 'string' ? splitCompared(raw.compare) : [];
  if (chosen.length > 0) search.compare = joinCompared(chosen);
  return search;
}

export type SearchPatch = { [K in keyof ListSearch]?: ListSearch[K] | undefined };

/** A change of some of the state; what is undefined leaves the address. */
export const patchSearch = (search: ListSearch, patch: SearchPatch): ListSearch =>
  parseListSearch({ ...search, ...patch });

export function splitGrades(joined: string | undefined): Grade[] {
  const named = new Set((joined ?? '').split(','));
  return grades.filter((grade) => named.has(grade));
}

/** None chosen and all chosen are the same list: neither stands in the address. */
export const joinGrades = (chosen: readonly Grade[]): string | undefined =>
  chosen.length === 0 || chosen.length === grades.length ? undefined : chosen.join(',');

/** Unit numbers may hold commas themselves, so each is encoded before they are joined. */
export const joinCompared = (vehicles: readonly string[]): string =>
  vehicles.map((vehicle) => encodeURIComponent(vehicle)).join(',');

export function splitCompared(joined: string | undefined): string[] {
  const vehicles = (joined ?? '')
    .split(',')
    .filter((part) => part !== '')
    .map(decode);
  return [...new Set(vehicles)].slice(0, mostCompared);
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
