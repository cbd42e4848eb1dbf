import { type Database, rawClient } from '#db/client.ts';
import { readCopyBytes } from './read-binary-copy.ts';
import { STRETCH_COLUMNS, StoredStretches } from './stored-stretches.ts';

/** Stretches of some vehicles. */
export async function readStretches(db: Database, vehicles: readonly number[]): Promise<StoredStretches> {
  if (vehicles.length < 2) return new StoredStretches(await readAll(db, vehicles));
  return db.transaction(async (transaction) => {
    // The key has them in order already. Where that is not seen, some thousand a vehicle are put in order in memory, not in files.
    await rawClient(transaction).unsafe(
      "set local enable_bitmapscan = off; set local enable_seqscan = off; set local enable_sort = off; set local work_mem = '64MB'",
    );
    const bytes = await readAll(transaction, vehicles);
    // The caller may have more to do in this transaction.
    await rawClient(transaction).unsafe(
      'set local enable_bitmapscan to default; set local enable_seqscan to default; set local enable_sort to default; set local work_mem to default',
    );
    return new StoredStretches(bytes);
  });
}

/** A row a vehicle: the driver takes each row for itself, which costs more than what is in it. */
const COLUMNS = STRETCH_COLUMNS.map((name) => `array_agg(${name} order by life, band, stretch)`).join(', ');

const readAll = (db: Database, vehicles: readonly number[]): Promise<Buffer> =>
  readCopyBytes(
    rawClient(db),
    `select vehicle, ${COLUMNS} from stretches where vehicle = any('{${vehicles.join(',')}}'::integer[]) group by vehicle`,
  );
