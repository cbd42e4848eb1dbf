/** A week, ms. */
export const WEEK_MS = 7 * 86_400_000;
/** 1970-01-05 was a Monday: weeks are numbered from it. */
export const FIRST_MONDAY_MS = 4 * 86_400_000;

/**
 * Number of the week that a moment lies in: whole weeks since Monday 1970-01-05, UTC.
 *
 * @param ms moment, ms since 1970-01-01 UTC
 * @returns number of the week, from Monday to Sunday
 * Source: own definition. Edges: moments before that Monday have negative weeks. Errors: none.
 * @example weekOf(4 * 86_400_000) // 0
 */
export function weekOf(ms: number): number {
  return Math.floor((ms - FIRST_MONDAY_MS) / WEEK_MS);
}
