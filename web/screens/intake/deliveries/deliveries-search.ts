export interface DeliveriesSearch {
  span?: 'days';
  sender?: string;
  q?: string;
  refused?: true;
  incomplete?: true;
  offset?: number;
  /** the delivery that is open */
  open?: string;
}

const longest = 300;
const flagOf = (value: unknown): boolean => value === true || value === 'true';

export function parseDeliveriesSearch(raw: Record<string, unknown>): DeliveriesSearch {
  const search: DeliveriesSearch = {};
  if (raw.span === 'days') search.span = 'days';
  for (const key of ['sender', 'q'] as const) {
    const text = raw[key];
    if (typeof text === 'string' && text.trim() !== '') search[key] = text.trim().slice(0, longest);
  }
  if (flagOf(raw.refused)) search.refused = true;
  if (flagOf(raw.incomplete)) search.incomplete = true;
  const offset = Number(raw.offset);
  if (Number.isSafeInteger(offset) && offset > 0) search.offset = offset;
  if (typeof raw.open === 'string' && /^[0-9a-f-]{36}$/i.test(raw.open)) search.open = raw.open;
  return search;
}

export type DeliveriesPatch = { [K in keyof DeliveriesSearch]?: DeliveriesSearch[K] | undefined };

/** Another filter begins at the newest delivery again. */
export const patchDeliveriesSearch = (search: DeliveriesSearch, patch: DeliveriesPatch): DeliveriesSearch =>
  parseDeliveriesSearch({
    ...search,
    ...('open' in patch || 'span' in patch ? {} : { offset: undefined, open: undefined }),
    ...patch,
  });
