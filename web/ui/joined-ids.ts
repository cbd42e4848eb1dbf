/** Ids with commas between, as an address has them. */
export const splitIds = (joined: unknown): string[] =>
  typeof joined === 'string' ? [...new Set(joined.split(',').map((one) => one.trim()))].filter(Boolean) : [];

/** None chosen stands for all, and does not stand in the address. */
export const joinIds = (ids: readonly string[]): string | undefined =>
  ids.length === 0 ? undefined : ids.slice(0, 50).join(',');
