/** What is wrong with a choice of depots, null for all of them; undefined where nothing is. */
export const checkDepots = (depots: readonly string[] | null): string | undefined =>
  depots?.length === 0 ? 'Choose a depot, or all depots.' : undefined;
