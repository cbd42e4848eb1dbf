import type { RankingQuery } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { joinUnits, readUnits, splitUnits, writeUnits } from '#web/ui/kept-units.ts';
import { bookingWords, changedWords } from './filter-words.ts';
import { sortWords } from './sort-words.ts';

/** What of the list's state is a filter: it narrows or orders the list, and can be saved. */
export interface ListFilterSearch {
  depot?: string;
  platform?: string;
  lacks?: NonNullable<RankingQuery['lacks']>;
  grade?: string;
  q?: string;
  booking?: NonNullable<RankingQuery['booking']>;
  changed?: NonNullable<RankingQuery['changed']>;
  horizon_km?: number;
  sort?: NonNullable<RankingQuery['sort']>;
}

/** All of the list's state that a link should carry. */
export interface ListSearch extends ListFilterSearch {
  /** the row that is opened in place */
  open?: string;
  /** vehicles that are ticked */
  chosen?: string;
  /** two or three that are ticked and stand side by side; then `chosen` is not there */
  compare?: string;
}

export const mostCompared = 3;

/** The bounds of the contract, which its schema checks; written out so that the browser need not load zod. */
export const searchBounds = { qLength: 100, leastHorizonKm: 100, mostHorizonKm: 100_000, mostChosen: 1000 };

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseListSearch(raw: Record<string, unknown>): ListSearch {
  const search: ListSearch = {};
  const textOf = (key: string): string => {
    const value = raw[key];
    return typeof value === 'string' ? value.trim() : '';
  };
  for (const key of ['depot', 'platform', 'open'] as const) if (textOf(key) !== '') search[key] = textOf(key);
  const lacks = raw.lacks;
  if (lacks === 'depot' || lacks === 'platform' || lacks === 'both') {
    search.lacks = lacks;
    // Who asks for both asks for nothing.
    if (lacks !== 'platform') delete search.depot;
    if (lacks !== 'depot') delete search.platform;
  }
  const grade = joinGrades(splitGrades(textOf('grade')));
  if (grade !== undefined) search.grade = grade;
  const q = textOf('q');
  if (q !== '' && q.length <= searchBounds.qLength) search.q = q;
  if (isOneOf(bookingWords, raw.booking)) search.booking = raw.booking;
  if (isOneOf(changedWords, raw.changed)) search.changed = raw.changed;
  const horizon = Number(raw.horizon_km);
  if (horizon >= searchBounds.leastHorizonKm && horizon <= searchBounds.mostHorizonKm)
    search.horizon_km = horizon;
  if (isOneOf(sortWords, raw.sort) && raw.sort !== 'rank') search.sort = raw.sort;
  const compared = splitUnits(textOf('compare')).slice(0, mostCompared);
  if (compared.length > 1) search.compare = joinUnits(compared);
  else if (textOf('chosen') !== '') search.chosen = textOf('chosen');
  else if (compared.length === 1) search.chosen = joinUnits(compared);
  return search;
}

const isOneOf = <T extends string>(words: Record<T, string>, value: unknown): value is T =>
  typeof value === 'string' && Object.hasOwn(words, value);

export type SearchPatch = { [K in keyof ListSearch]?: ListSearch[K] | undefined };

/** A change of some of the state; what is undefined leaves the address. */
export const patchSearch = (search: ListSearch, patch: SearchPatch): ListSearch =>
  parseListSearch({ ...search, ...patch });

/** Only what narrows or orders the list, always in the same order. */
export function filterOf(search: ListSearch): ListFilterSearch {
  const { depot, platform, lacks, grade, q, booking, changed, horizon_km, sort } = parseListSearch({
    ...search,
  });
  const all = { depot, platform, lacks, grade, q, booking, changed, horizon_km, sort };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}

/** A list without any filter, in any order. */
export const noFilter: SearchPatch = {
  depot: undefined,
  platform: undefined,
  lacks: undefined,
  grade: undefined,
  q: undefined,
  booking: undefined,
  changed: undefined,
};

/** The ticked vehicles; those of a choice that another window keeps are not known here. */
export const chosenOf = ({ compare, chosen }: ListSearch): string[] =>
  (compare === undefined ? (readUnits(chosen) ?? []) : splitUnits(compare)).slice(0, searchBounds.mostChosen);

/** Other ticks; the comparison goes on while two or three are left. */
export function chooseUnits(search: ListSearch, units: readonly string[], compares: boolean): ListSearch {
  const wanted = units.slice(0, searchBounds.mostChosen);
  const fits = wanted.length > 1 && wanted.length <= mostCompared;
  return patchSearch(
    search,
    compares && fits
      ? { chosen: undefined, compare: joinUnits(wanted) }
      : { chosen: wanted.length === 0 ? undefined : writeUnits(wanted), compare: undefined },
  );
}

export function splitGrades(joined: string | undefined): Grade[] {
  const named = new Set((joined ?? '').split(','));
  return grades.filter((grade) => named.has(grade));
}

/** None chosen and all chosen are the same list: neither stands in the address. */
export const joinGrades = (chosen: readonly Grade[]): string | undefined =>
  chosen.length === 0 || chosen.length === grades.length ? undefined : chosen.join(',');
