import type { Database } from '#db/client.ts';
import { readingMonth, withReadingMonths } from '#db/partitions.ts';
import { copyRefusedLines } from '#db/queries/copy-refused-lines.ts';
import { dropRepeatedRefusals } from '#db/queries/drop-repeated-refusals.ts';
import { findOrAddVehicles } from '#db/queries/find-or-add-vehicles.ts';
import { noteNewReadings } from '#db/queries/note-new-readings.ts';
import { planByIndex } from '#db/queries/plan-by-index.ts';
import type { ReadingColumns } from '#db/queries/reading-columns.ts';
import { isStoredMeanwhile, storeReadings } from '#db/queries/store-readings.ts';
import type { Batch } from './batch.ts';
import type { Counts } from './counts.ts';
import { CUT_OFF } from './line.ts';

/** Every time that it is in vain another delivery has stored some of the same: so often only if that many bring them at once. */
const TRIES = 50;

/** Two that wait for each other in spite of the order of locks: one was ended, and nothing of it is kept. */
const isDeadlock = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === '40P01';

/** The receipt that a batch belongs to, whose readings they are, and when it arrived. */
export interface BatchOwner {
  receipt: string;
  sender: string;
  /** the last refused line that an earlier try kept under this receipt; null where there was no such try */
  earlierTo: number | null;
  arrivedAt: Date;
}

/**
 * Stores a batch in one transaction, and with it what `alsoStore` writes, which is told what became of the batch. Locks
 * are taken in one order everywhere: new units by name, readings by vehicle and time, weeks of the sender by vehicle and
 * week, spans and touched spans by vehicle, refused lines by id. So deliveries wait for each other, and for whoever lets
 * lines in, and never in a circle.
 */
export async function storeBatch(
  db: Database,
  owner: BatchOwner,
  batch: Batch,
  alsoStore: (transaction: Database, counts: Counts) => Promise<void>,
): Promise<Counts> {
  const store = (transaction: Database) => storeOne(transaction, owner, batch, alsoStore);
  const storeWhole = async (): Promise<Counts> => {
    for (let left = TRIES; ; left--)
      try {
        return await db.transaction(store);
      } catch (error) {
        // Whoever stored it has committed by now, so that it is found this time.
        if (left === 0 || !(isStoredMeanwhile(error) || isDeadlock(error))) throw error;
      }
  };
  return withReadingMonths(db, monthsOf(batch.readings), storeWhole);
}

async function storeOne(
  transaction: Database,
  { receipt, sender, earlierTo, arrivedAt }: BatchOwner,
  batch: Batch,
  alsoStore: (transaction: Database, counts: Counts) => Promise<void>,
): Promise<Counts> {
  await copyRefusedLines(transaction, receipt, batch.refused);
  const counts: Counts = {
    received: batch.received,
    refused: batch.refused.length,
    ...(await storeAll(transaction, batch.readings, arrivedAt, sender)),
  };
  if (earlierTo !== null && batch.received > 0)
    await dropRepeatedRefusals(transaction, receipt, {
      from: batch.firstLine,
      to: batch.lastLine,
      earlierTo,
      cutOff: CUT_OFF,
    });
  await alsoStore(transaction, counts);
  return counts;
}

async function storeAll(transaction: Database, readings: ReadingColumns, arrivedAt: Date, sender: string) {
  if (readings.length === 0) return { stored: 0, duplicate: 0, conflicting: 0 };
  const keys = await findOrAddVehicles(transaction, readings.units);
  const keyOfPlace = Int32Array.from(readings.units, (unit) => keyOf(keys, unit));
  return planByIndex(transaction, async () => {
    const { spans, ...counts } = await storeReadings(transaction, readings, keyOfPlace, arrivedAt, sender);
    await noteNewReadings(transaction, spans);
    return counts;
  });
}

function keyOf(keys: Map<string, number>, unit: string): number {
  const key = keys.get(unit);
  if (key === undefined) throw new Error(`storeBatch requires every unit stored, missing '${unit}'`);
  return key;
}

function monthsOf({ atMs, length }: ReadingColumns): Set<string> {
  const months = new Set<string>();
  let fromMs = 0;
  let toMs = 0;
  for (let row = 0; row < length; row++) {
    const ms = atMs[row] ?? 0;
    if (ms >= fromMs && ms < toMs) continue;
    const at = new Date(ms);
    fromMs = Date.UTC(at.getUTCFullYear(), at.getUTCMonth());
    toMs = Date.UTC(at.getUTCFullYear(), at.getUTCMonth() + 1);
    months.add(readingMonth(at));
  }
  return months;
}
