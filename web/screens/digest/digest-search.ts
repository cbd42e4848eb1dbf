import { isDay } from '#web/format/days.ts';

/** What a link to the digest carries. */
export interface DigestSearch {
  /** any day of the week; this week where left out */
  week?: string;
  depot?: string;
}

/** Takes what is sound from an address that anyone may have typed. */
export function parseDigestSearch(raw: Record<string, unknown>): DigestSearch {
  const { week, depot } = raw;
  return {
    ...(isDay(week) ? { week } : {}),
    ...(typeof depot === 'string' && depot.trim() !== '' ? { depot: depot.trim() } : {}),
  };
}
