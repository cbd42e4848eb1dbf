const DAY_MS = 86_400_000;

const dayOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** Monday of the week of a moment, UTC, as the server counts weeks. */
export function mondayOf(ms: number): string {
  const weekday = (new Date(ms).getUTCDay() + 6) % 7;
  return dayOf(ms - weekday * DAY_MS);
}

/** The same day so many weeks on. */
export const weeksOn = (day: string, weeks: number): string => dayOf(Date.parse(day) + weeks * 7 * DAY_MS);

export const sundayOf = (monday: string): string => dayOf(Date.parse(monday) + 6 * DAY_MS);
