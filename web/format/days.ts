const DAY_MS = 86_400_000;
const msOf = (day: string): number => Date.parse(`${day}T00:00:00Z`);
const dayOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

export const addDays = (day: string, days: number): string => dayOf(msOf(day) + days * DAY_MS);

export const countDays = (from: string, to: string): number => Math.round((msOf(to) - msOf(from)) / DAY_MS);

/** From the first on, as many as asked for. */
export const listDays = (from: string, days: number): string[] =>
  Array.from({ length: days }, (_, i) => addDays(from, i));

/** 0 for Monday to 6 for Sunday. */
const weekdayOf = (day: string): number => (new Date(msOf(day)).getUTCDay() + 6) % 7;

export const findMonday = (day: string): string => addDays(day, -weekdayOf(day));
export const isMonday = (day: string): boolean => weekdayOf(day) === 0;

export function isDay(text: unknown): text is string {
  if (typeof text !== 'string' || !/^(19|2[01])\d{2}-\d{2}-\d{2}$/.test(text)) return false;
  const ms = msOf(text);
  return !Number.isNaN(ms) && dayOf(ms) === text;
}
