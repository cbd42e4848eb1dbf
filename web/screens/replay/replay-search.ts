/** What the address of the screen says. */
export type ReplaySearch = Record<string, never>;

export function parseReplaySearch(_raw: Record<string, unknown>): ReplaySearch {
  return {};
}
