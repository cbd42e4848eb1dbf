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

const isDay = (value: unknown): value is string =>
  typeof value === 'string' &&
  /^\d{4}-\d{2}-\d{2}$/.test(value) &&
  !Number.isNaN(Date.parse(value)) &&
  new Date(value).toISOString().startsWith(value);
