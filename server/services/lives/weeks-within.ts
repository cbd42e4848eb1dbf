import { dayWords } from '#server/services/words/day-words.ts';
import type { Period } from './limit-to-period.ts';

const WEEK_MS = 604_800_000;

/** Numbers of weeks since 1970, both included; the first after the last where there is none. */
export interface Weeks {
  first: number;
  last: number;
}

/**
 * The whole weeks within a period, as use is kept by week: of one that reaches beyond, nobody can tell what was within. A stretch
 * stands in the week in which it ended, so nothing that came after the period is among them.
 */
export const weeksWithin = ({ fromMs, toMs }: Period): Weeks => ({
  first: fromMs === null ? Number.NEGATIVE_INFINITY : Math.ceil(fromMs / WEEK_MS),
  last: toMs === null ? Number.POSITIVE_INFINITY : Math.floor(toMs / WEEK_MS) - 1,
});

/** What of a period tells how converters were used, as a sentence; null where all of a life does. */
export function sayWeeks(period: Period): string | null {
  if (period.fromMs === null && period.toMs === null) return null;
  const { first, last } = weeksWithin(period);
  if (first > last)
    return 'The period holds no whole week, so it is not known how converters were used in it.';
  const from = Number.isFinite(first) ? ` from ${dayWords(first * WEEK_MS)}` : '';
  const to = Number.isFinite(last) ? ` up to ${dayWords((last + 1) * WEEK_MS - 1)}` : '';
  return `How converters were used counts in the whole weeks within the period,${from}${to}: nothing that came after it tells on what failed in it.`;
}
