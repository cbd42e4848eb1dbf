import type { RankingQuery } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { sortWords } from './sort-words.ts';

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

/** The bounds of the contract, which its schema checks; written out so that the browser need not load zod. */
export const searchBounds = { qLength: 100, leastHorizonKm: 100, mostHorizonKm: 100_000 };

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseListSearch(raw: Record<string, unknown>): ListSearch {
  const search: ListSearch = {};
  const textOf = (key: string): string => {
    const value = raw[key];
    return typeof value === 'string' ? value.trim() : '';
  };
  for (const key of ['depot', 'platform', 'open'] as const) if (textOf(key) !== '') search[key] = textOf(key);
  const grade = joinGrades(splitGrades(textOf('grade')));
  if (grade !== undefined) search.grade = grade;
  const q = textOf('q');
  if (q !== '' && q.length <= searchBounds.qLength) search.q = q;
  const horizon = Number(raw.horizon_km);
  if (horizon >= searchBounds.leastHorizonKm && horizon <= searchBounds.mostHorizonKm)
    search.horizon_km = horizon;
  const sort = raw.sort;
  if (isSort(sort) && sort !== 'rank') search.sort = sort;
  const compare = joinCompared(splitCompared(textOf('compare')));
  if (compare !== '') search.compare = compare;
  return search;
}

const isSort = (value: unknown): value is keyof typeof sortWords =>
  typeof value === 'string' && Object.hasOwn(sortWords, value);

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
