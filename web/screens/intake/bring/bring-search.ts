export interface BringSearch {
  /** the name of a stored mapping that files are read with */
  as?: string;
}

export function parseBringSearch(search: Record<string, unknown>): BringSearch {
  const { as } = search;
  return typeof as === 'string' && as !== '' && as.length <= 64 ? { as } : {};
}
