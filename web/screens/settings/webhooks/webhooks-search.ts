import { type OpenSearch, parseOpenSearch } from '#web/screens/settings/open-search.ts';

/** What a link to the webhooks should carry. */
export interface WebhooksSearch extends OpenSearch {
  /** page of the log of the one that is opened, from 2 */
  page?: number;
}

export function parseWebhooksSearch(raw: Record<string, unknown>): WebhooksSearch {
  const { open } = parseOpenSearch({ open: typeof raw.open === 'number' ? String(raw.open) : raw.open });
  if (open === undefined) return {};
  const page = Number(raw.page);
  return { open, ...(Number.isInteger(page) && page > 1 && page < 1e6 ? { page } : {}) };
}
