import type { ToldDay } from './tell-day.ts';

/** What a day of the calendar has room for, in words. */
export function sayDayOf({ kind, bays, hours, note }: ToldDay): string {
  const after = note === '' ? '' : `, ${note}`;
  if (hours === null) return `${kind === 'off' ? 'closed by a special day' : 'no working day'}${after}`;
  const room = `${hours.from} to ${hours.to}, ${bays === 1 ? 'one bay' : `${bays} bays`}`;
  const more = kind === 'short' ? 'less than usual: ' : kind === 'extra' ? 'more than usual: ' : '';
  return `${more}${room}${after}`;
}
