import type { Unavailability } from '#server/contract/calendar.ts';
import { formatDay, formatDaySpan } from '#web/format/format-day.ts';

const mostNamed = 3;

const sayOne = ({ from, to, note }: Unavailability): string =>
  `${from === to ? `${formatDay(from)} ${from.slice(0, 4)}` : formatDaySpan(from, to)}${note === '' ? '' : ` (${note})`}`;

/** On which days from today on a vehicle cannot be taken, in a sentence. */
export function sayAway(unavailable: readonly Unavailability[], today: string): string {
  const ahead = unavailable.filter(({ to }) => to >= today);
  if (ahead.length === 0) return 'It can be taken on any day.';
  const named = ahead.slice(0, mostNamed).map(sayOne);
  const rest = ahead.length - named.length;
  const last = rest > 0 ? `${rest} more` : named.pop();
  const list = named.length === 0 ? last : `${named.join(', ')} and ${last}`;
  return `It cannot be taken on ${list}.`;
}

/** The days that hold a day, where there are some. */
export const findAway = (unavailable: readonly Pick<Unavailability, 'from' | 'to'>[], day: string | null) =>
  day === null
    ? undefined
    : unavailable.find(({ from, to }) => from !== '' && from <= day && day <= (to || from));
