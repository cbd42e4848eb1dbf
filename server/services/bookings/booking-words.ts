import { Temporal } from 'temporal-polyfill';
import { localOf } from '#server/services/calendar/local-time.ts';

const parts = (options: Intl.DateTimeFormatOptions) => {
  const format = new Intl.DateTimeFormat('en-GB', { ...options, timeZone: 'UTC' });
  return (day: string) =>
    format.format(Temporal.PlainDate.from(day).toZonedDateTime('UTC').epochMilliseconds);
};
const weekdayShort = parts({ weekday: 'short' });
const dayAndMonth = parts({ day: 'numeric', month: 'short' });

export const sayWeekday = parts({ weekday: 'long' });

/** 'Mon 30 Nov', with the year where it is not the one of `beside`, a day. */
export function sayDay(day: string, beside: string): string {
  const year = day.slice(0, 4);
  return `${weekdayShort(day)} ${dayAndMonth(day)}${year === beside.slice(0, 4) ? '' : ` ${year}`}`;
}

/** 'Thu 26 Nov 2026, 09:12', as the clock of that place shows it. */
export function sayMoment(timeZone: string, at: Date): string {
  const { day, clock } = localOf(timeZone, at);
  return `${sayDay(day, '')}, ${clock}`;
}

/** '3 h', '2.5 h', '2.25 h'. */
export const sayHours = (hours: number): string => `${Math.round(hours * 100) / 100} h`;

/** What somebody wrote over several lines, as part of a sentence: without the stop at its end. */
export const inOneLine = (text: string): string =>
  text
    .trim()
    .replace(/\s*\n\s*/g, ' ')
    .replace(/\.$/, '');

/** 'a', 'a and b', 'a, b and c'; more than `most` are counted. */
export function sayList(names: readonly string[], most = 4): string {
  const shown =
    names.length > most ? [...names.slice(0, most - 1), `${names.length - most + 1} more`] : [...names];
  const last = shown.pop() ?? '';
  return shown.length === 0 ? last : `${shown.join(', ')} and ${last}`;
}
