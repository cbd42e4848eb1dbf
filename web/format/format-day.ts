import { formatWhole } from './format-number.ts';
import { withUnit } from './with-unit.ts';

/** A day of a calendar has no zone: it is shown as written, wherever the reader sits. */
const format = (options: Intl.DateTimeFormatOptions) => {
  const words = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', ...options });
  return (day: string): string => words.format(new Date(`${day}T00:00:00Z`)).replace(',', '');
};

/** 'Thu 5 Mar' */
export const formatDay = format({ weekday: 'short', day: 'numeric', month: 'short' });
/** 'Thursday 5 March 2026' */
export const formatWholeDay = format({ weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' });
/** 'Thu' */
export const formatWeekday = format({ weekday: 'short' });
/** 'Mar' */
export const formatMonth = format({ month: 'short' });
const monthAndYear = format({ month: 'short', year: 'numeric' });
/** 'Mar 2026', of '2026-03' */
export const formatMonthAndYear = (month: string): string => monthAndYear(`${month}-01`);
export const formatDayAndYear = format({ day: 'numeric', month: 'short', year: 'numeric' });
const formatDayAndMonth = format({ day: 'numeric', month: 'short' });

/** '2 to 15 Mar 2026' */
export function formatDaySpan(from: string, to: string): string {
  if (from === to) return formatDayAndYear(from);
  if (from.slice(0, 7) === to.slice(0, 7)) return `${Number(from.slice(8))} to ${formatDayAndYear(to)}`;
  if (from.slice(0, 4) === to.slice(0, 4)) return `${formatDayAndMonth(from)} to ${formatDayAndYear(to)}`;
  return `${formatDayAndYear(from)} to ${formatDayAndYear(to)}`;
}

/** Hours to the quarter, without their unit: '2.5'. */
export const formatHourNumber = (hours: number): string =>
  Number.isInteger(hours) ? formatWhole(hours) : String(Math.round(hours * 100) / 100);

export const formatHours = (hours: number): string => withUnit(formatHourNumber(hours), 'h');
