import { noFigure } from './format-number.ts';

const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' });
const toMinute = {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
} as const;
const minute = new Intl.DateTimeFormat('en-GB', toMinute);
/** A calendar date has no zone: shown as written, wherever the reader sits. */
const calendarDay = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' });
const utcDay = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});

type Moment = string | null | undefined;

/** RFC 3339 time as a day in the reader's zone: '4 Mar 2026'. */
export const formatDate = (at: Moment): string => (at == null ? noFigure : day.format(new Date(at)));

/** What is dated by weeks that begin in UTC, such as a step of a platform: the same day for every reader. */
export const formatUtcDate = (at: string): string => utcDay.format(new Date(at));

export const formatMoment = (at: Moment): string => (at == null ? noFigure : minute.format(new Date(at)));

/** As the clocks show it at a place. */
export const formatMomentAt = (at: string, timeZone: string): string =>
  new Intl.DateTimeFormat('en-GB', { ...toMinute, timeZone }).format(new Date(at));

/** A date such as the Monday of a week, '2026-03-02', as '2 Mar'. */
export const formatWeek = (date: string): string => calendarDay.format(new Date(`${date}T00:00:00Z`));
