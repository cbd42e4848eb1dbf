const FIRST_MS = 60_000;
const LONGEST_MS = 6 * 3_600_000;
const RETRY_AFTER_MOST_MS = 24 * 3_600_000;
/** So long after the event nobody tries any more. */
const GIVE_UP_MS = 3 * 24 * 3_600_000;
const GONE = 410;

export interface FailedTry {
  /** of the event */
  at: Date;
  now: Date;
  /** the one that failed included */
  tries: number;
  /** of the answer; null where none came */
  status: number | null;
  retryAfter: string | null;
  /** from 0 to 1, so that those who failed together do not come back together */
  chance: number;
}

/** When to try again: a minute, doubling up to 6 h, a fifth more or less, and as late as the receiver asks. Null for never. */
export function planNextTry({ at, now, tries, status, retryAfter, chance }: FailedTry): Date | null {
  if (status === GONE) return null;
  const backOffMs = Math.min(FIRST_MS * 2 ** Math.min(tries - 1, 20), LONGEST_MS) * (0.8 + 0.4 * chance);
  const askedMs = Math.min(readRetryAfter(retryAfter, now), RETRY_AFTER_MOST_MS);
  const nextAt = new Date(now.getTime() + Math.max(backOffMs, askedMs));
  return nextAt.getTime() - at.getTime() > GIVE_UP_MS ? null : nextAt;
}

/** RFC 9110, 10.2.3: seconds or a date; 0 where it says neither. */
function readRetryAfter(text: string | null, now: Date): number {
  if (text === null) return 0;
  if (/^\d{1,9}$/.test(text.trim())) return Number(text) * 1000;
  const atMs = Date.parse(text);
  return Number.isNaN(atMs) ? 0 : Math.max(0, atMs - now.getTime());
}
