import { noFigure } from './format-number.ts';
import { withUnit } from './with-unit.ts';

const DAYS_PER_WEEK = 7;
const DAYS_PER_MONTH = 365.25 / 12;

/** A time that is an estimate, in the unit in which one would plan it. */
export function formatDays(days: number | null | undefined): string {
  if (days == null) return noFigure;
  if (days <= 0) return 'now';
  if (days < 1) return 'under a day';
  if (days < 1.5) return withUnit('1', 'day');
  if (days < 60) return withUnit(String(Math.round(days)), 'days');
  if (days < 180) return withUnit(String(Math.round(days / DAYS_PER_WEEK)), 'weeks');
  if (days < 730) return withUnit(String(Math.round(days / DAYS_PER_MONTH)), 'months');
  return withUnit('over 2', 'years');
}

/** How long ago, seen from `now`: 'today', '3 days ago'. */
export function formatAge(at: string | null | undefined, now: Date): string {
  if (at == null) return noFigure;
  const days = (now.getTime() - Date.parse(at)) / 86_400_000;
  if (days < 1) return 'within a day';
  return `${formatDays(Math.floor(days))} ago`;
}
