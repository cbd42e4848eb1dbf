/** What a link to the storage should carry. */
export interface StorageSearch {
  /** all months in the table, not the newest alone */
  months?: 'all';
}

export const parseStorageSearch = (raw: Record<string, unknown>): StorageSearch =>
  raw.months === 'all' ? { months: 'all' } : {};
