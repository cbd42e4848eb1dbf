/** What the address of the screen says. */
export type LivesSearch = Record<string, never>;

export function parseLivesSearch(_raw: Record<string, unknown>): LivesSearch {
  return {};
}
