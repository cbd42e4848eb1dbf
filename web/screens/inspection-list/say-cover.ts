import type { Outlook } from '#server/contract/ranking.ts';
import { formatWeek } from '#web/format/format-date.ts';

const namedWeeks = 3;

/** What the outlook comes to, in one sentence. */
export function sayCover({ weeks, overdue }: Pick<Outlook, 'weeks' | 'overdue'>): string {
  const expected = weeks.reduce((sum, week) => sum + week.expected, 0);
  const past = overdue.filter((one) => !one.seen_to).length;
  if (expected < 0.5 && past === 0)
    return [...overdue, ...weeks.flatMap(({ vehicles }) => vehicles)].length === 0
      ? `No limit is near in the next ${weeks.length} weeks`
      : 'Every vehicle near its limit has a day, or was inspected';
  // Who is past the limit already is due in the first week beside those expected in it.
  const short = weeks.filter((week, i) => week.expected + (i === 0 ? past : 0) > week.bay_days);
  if (short.length === 0) return `Free bay days cover every one of the next ${weeks.length} weeks`;
  const names = short.slice(0, namedWeeks).map((week) => formatWeek(week.week));
  const rest = short.length - names.length;
  const named = rest > 0 ? `${names.join(', ')} and ${rest} more` : names.join(', ');
  return `More vehicles without a day than free bay days in ${short.length === 1 ? 'the week' : 'the weeks'} of ${named}`;
}
