import { SlipdriftError } from '#server/errors.ts';
import { addDays, mondayOf } from '#server/services/calendar/depot-days.ts';
import { dayWords } from '#server/services/words/day-words.ts';

export const DAY_MS = 86_400_000;

/** What a digest tells of: seven days before the week that it opens, or up to now where that week runs. */
export interface DigestWeek {
  /** Monday, UTC: depots may lie in several zones, and the week is one for all of them */
  monday: string;
  from: Date;
  to: Date;
  current: boolean;
}

/** The week of a day, or the one that runs; one that has not begun is refused. */
export function readDigestWeek(now: Date, day?: string): DigestWeek {
  const running = mondayOf(now.toISOString().slice(0, 10));
  const monday = day === undefined ? running : mondayOf(day);
  if (monday > running)
    throw new SlipdriftError(
      'invalid_request',
      `The week of ${dayWords(Date.parse(monday))} has not begun. The newest digest is that of this week.`,
      { errors: [{ field: 'week', message: 'must not be after this week' }] },
    );
  const current = monday === running;
  const to = current ? now : new Date(`${monday}T00:00:00Z`);
  return { monday, from: new Date(to.getTime() - 7 * DAY_MS), to, current };
}

export const sundayOf = ({ monday }: Pick<DigestWeek, 'monday'>): string => addDays(monday, 6);
