import type { Database } from '#db/client.ts';
import { listReadingMonths } from '#db/queries/upkeep/list-reading-months.ts';
import { readDatabaseBytes } from '#db/queries/upkeep/list-table-sizes.ts';
import { readUpkeepState } from '#db/queries/upkeep/upkeep-runs.ts';

/** What `/metrics` tells of storage. */
export interface StorageFigures {
  databaseBytes: number;
  readingMonths: number;
  readingBytes: number;
  readings: number;
  upkeepDoneS: number;
  upkeepFailures: number;
}

export async function readStorageFigures(db: Database): Promise<StorageFigures> {
  const databaseBytes = await readDatabaseBytes(db);
  const months = await listReadingMonths(db);
  const { failures, doneAt } = await readUpkeepState(db);
  return {
    databaseBytes,
    readingMonths: months.length,
    readingBytes: months.reduce((sum, { heapBytes, indexBytes }) => sum + heapBytes + indexBytes, 0),
    readings: months.reduce((sum, { estimatedRows }) => sum + estimatedRows, 0),
    upkeepDoneS: doneAt === null ? 0 : new Date(doneAt).getTime() / 1000,
    upkeepFailures: failures,
  };
}
