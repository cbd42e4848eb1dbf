/** What a link to a list of settings should carry. */
export interface OpenSearch {
  /** the line that is opened in place, by its id */
  open?: string;
}

const longestId = 64;

export function parseOpenSearch(raw: Record<string, unknown>): OpenSearch {
  const open = typeof raw.open === 'string' ? raw.open.trim().slice(0, longestId) : '';
  return open === '' ? {} : { open };
}
