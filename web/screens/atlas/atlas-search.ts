/** What the address of the screen says. */
export type AtlasSearch = Record<string, never>;

export function parseAtlasSearch(_raw: Record<string, unknown>): AtlasSearch {
  return {};
}
