const MINUTE_S = 60;
const HOUR_S = 3600;
const DAY_S = 86_400;

/** A span of time in the unit in which one thinks of it: 'under a second', '40 s', '15 minutes', '3 days'. */
export function saySpan(seconds: number): string {
  if (seconds < 1) return 'under a second';
  if (seconds < 100) return `${Math.round(seconds)}\u00a0s`;
  if (seconds < 100 * MINUTE_S) return count(seconds / MINUTE_S, 'minute');
  if (seconds < 48 * HOUR_S) return count(seconds / HOUR_S, 'hour');
  return count(seconds / DAY_S, 'day');
}

function count(value: number, unit: string): string {
  const n = Math.round(value);
  return `${n}\u00a0${unit}${n === 1 ? '' : 's'}`;
}
