import type { Depot } from '#server/contract/fleet.ts';
import { type Weekday, weekdays } from '#server/contract/words.ts';
import { hoursBetween } from '#web/format/read-clock.ts';

const short: Record<Weekday, string> = {
  monday: 'Mon',
  tuesday: 'Tue',
  wednesday: 'Wed',
  thursday: 'Thu',
  friday: 'Fri',
  saturday: 'Sat',
  sunday: 'Sun',
};

const figure = (value: number): string => String(Math.round(value * 100) / 100);

/** 'Mon to Fri 07:00–16:00, Sat 08:00–12:00'. */
export function sayWeek(week: Depot['week']): string {
  const runs: { from: Weekday; to: Weekday; hours: string }[] = [];
  for (const [i, day] of weekdays.entries()) {
    const own = week[day];
    if (own === null) continue;
    const hours = `${own.from}–${own.to}`;
    const last = runs.at(-1);
    if (last !== undefined && last.hours === hours && last.to === weekdays[i - 1]) last.to = day;
    else runs.push({ from: day, to: day, hours });
  }
  if (runs.length === 0) return 'closed all week';
  return runs
    .map(({ from, to, hours }) => `${from === to ? short[from] : `${short[from]} to ${short[to]}`} ${hours}`)
    .join(', ');
}

export const countOpenHours = (week: Depot['week']): number =>
  weekdays.reduce((sum, day) => {
    const own = week[day];
    return own === null ? sum : sum + hoursBetween(own.from, own.to);
  }, 0);

/** What a week has room for, in a sentence. */
export function sayBayHours({ bays, week }: Pick<Depot, 'bays' | 'week'>): string {
  const open = countOpenHours(week);
  if (bays === 0) return 'No bay: nothing can be booked here.';
  if (open === 0) return 'Closed all week; only special days have room.';
  const total = figure(bays * open);
  return bays === 1
    ? `One bay, open ${figure(open)} h a week: ${total} bay hours.`
    : `${bays} bays, open ${figure(open)} h a week: ${total} bay hours.`;
}
