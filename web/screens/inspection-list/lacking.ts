import type { ListSearch, SearchPatch } from './list-search.ts';

/** Stands in a choice for 'none'; no id begins with a star. */
export const lacking = '*';

const parts = ['depot', 'platform'] as const;
type Part = (typeof parts)[number];

export const lacks = ({ lacks: lacksWhat }: ListSearch, part: Part): boolean =>
  lacksWhat === part || lacksWhat === 'both';

/** What the choice of a depot or platform changes: one by its id, '' for all, a star for those without. */
export function pickPart(search: ListSearch, part: Part, value: string): SearchPatch {
  const without = parts.filter((one) => (one === part ? value === lacking : lacks(search, one)));
  return {
    [part]: value === '' || value === lacking ? undefined : value,
    lacks: without.length === 2 ? 'both' : without[0],
  };
}
