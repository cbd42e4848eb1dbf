/** What the settings say of how long things are kept, and whose the database server is. */
export interface UpkeepLimits {
  /** 0 keeps readings for ever */
  keepReadingsMonths: number;
  /** 0 keeps receipts and settled lines for ever */
  keepReceiptsMonths: number;
  /** whether PostgreSQL is one of our own, on a disk of this machine */
  ownServer: boolean;
}

export const keepAll: UpkeepLimits = { keepReadingsMonths: 0, keepReceiptsMonths: 0, ownServer: false };

/** What retention leaves: the first moment of the month that is `months` before that of `now`. */
export const startOfKept = (now: Date, months: number): Date =>
  new Date(Date.UTC(now.getUTCFullYear(), now.getUTCMonth() - months, 1));
