import { parseSearchText, writeSearchText } from '#web/search-text.ts';
import { filterOf, type ListFilterSearch, type ListSearch, parseListSearch } from './list-search.ts';

/** What is kept of the list's address: its filter and its order, without the question mark. */
export const writeFilter = (search: ListSearch): string => writeSearchText({ ...filterOf(search) }).slice(1);

/** A kept filter; what a list of today no longer knows falls away. */
export const readSaved = (text: string): ListFilterSearch => filterOf(parseListSearch(parseSearchText(text)));

export const sameFilter = (a: ListSearch, b: ListSearch): boolean => writeFilter(a) === writeFilter(b);

/** Another filter with the same vehicles ticked. */
export function keepChoice(before: Record<string, unknown>, filter: ListFilterSearch): ListSearch {
  const { chosen, compare } = parseListSearch({ ...before });
  return {
    ...filter,
    ...(chosen === undefined ? {} : { chosen }),
    ...(compare === undefined ? {} : { compare }),
  };
}
