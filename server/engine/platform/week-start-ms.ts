import { FIRST_MONDAY_MS, WEEK_MS } from './week-of.ts';

/**
 * Moment at which a week starts: the reverse of weekOf.
 *
 * @param week number of the week; a fraction is a moment within it
 * @returns moment, ms since 1970-01-01 UTC
 * Source: own definition. Edges: as said. Errors: none.
 * @example weekStartMs(0) // 4 * 86_400_000
 */
export function weekStartMs(week: number): number {
  return FIRST_MONDAY_MS + week * WEEK_MS;
}
