export type Query = Record<string, string | number | undefined>;

/** A path with what is asked for behind it; what is undefined stays away. */
export function writeQuery(path: string, query: Query): string {
  const search = new URLSearchParams();
  for (const [key, value] of Object.entries(query)) if (value !== undefined) search.set(key, String(value));
  return search.size === 0 ? path : `${path}?${search}`;
}
