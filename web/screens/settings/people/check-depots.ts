import type { Role } from '#server/contract/words.ts';

/** What is wrong with a choice of depots, null for all of them; undefined where nothing is. */
export const checkDepots = (depots: readonly string[] | null): string | undefined =>
  depots?.length === 0 ? 'Choose a depot, or all depots.' : undefined;

/** An admin works for all depots, whatever was chosen before. */
export const reachOf = (role: Role, depots: string[] | null): string[] | null =>
  role === 'admin' ? null : depots;
