import type { Database } from '#db/client.ts';
import { readCalms } from '#db/queries/calms.ts';
import { wordHolds } from './word-holds.ts';

/** The vehicles about which the word of a shop still keeps the list calm, each with the packet that says it. */
export async function findCalms(db: Database): Promise<{ vehicle: number; packet: number }[]> {
  const rows = await readCalms(db);
  return rows.filter(wordHolds).map(({ vehicle, packet }) => ({ vehicle, packet }));
}
