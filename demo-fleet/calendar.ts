/** Days are counted from 1970-01-01 UTC; the invented region keeps UTC all year. */
export const DAY_MS = 86_400_000;
export const HOUR_MS = 3_600_000;

export const dayOf = (ms: number): number => Math.floor(ms / DAY_MS);

/** 0 is Sunday; 1970-01-01 was a Thursday. */
export const weekdayOf = (day: number): number => (((day + 4) % 7) + 7) % 7;

export const dayOfYear = (day: number): number => {
  const year = new Date(day * DAY_MS).getUTCFullYear();
  return day - Math.floor(Date.UTC(year, 0, 1) / DAY_MS);
};

/** RFC 3339 to the second. */
export const momentText = (ms: number): string => `${new Date(ms).toISOString().slice(0, 19)}Z`;
