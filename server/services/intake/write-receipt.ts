import { randomUUID } from 'node:crypto';
import type { Database } from '#db/client.ts';
import { receipts } from '#db/schema/intake.ts';
import type { FieldError } from '#server/contract/problems.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { addToBatch, type Batch, isFull, newBatch } from './batch.ts';
import type { BodyFault } from './body-fault.ts';
import { addCounts, type Counts, noCounts } from './counts.ts';
import type { Line } from './line.ts';
import { listUnknownFields } from './note-unknown-fields.ts';
import { storeBatch } from './store-batch.ts';

const REFUSALS_SHOWN = 20;

interface Ending {
  fault: BodyFault | null;
  bound: { key: string; sha256: string } | null;
}

/**
 * Takes a delivery's lines and keeps its receipt. The receipt is brought up to date with every batch, in the same
 * transaction: when this process dies midway, it says what was stored, marked as incomplete.
 */
export function createReceiptWriter(context: Context, contentType: string) {
  const id = randomUUID();
  const at = context.now();
  const refusals: FieldError[] = [];
  const unknownFields = new Map<string, number>();
  let counts: Counts = noCounts;
  let batch = newBatch(unknownFields);
  let storing: Promise<void> = Promise.resolve();

  const toReply = (total: Counts): DeliveryReply => ({
    receipt: id,
    ...total,
    refusals,
    unknown_fields: listUnknownFields(unknownFields),
  });

  const store = async (full: Batch, ending: Ending | null): Promise<void> => {
    const added = await storeBatch(context.db, id, full, (transaction, now) => {
      const total = addCounts(counts, now);
      return upsert(transaction, {
        id,
        at,
        contentType,
        ...total,
        reply: toReply(total),
        ...toColumns(ending),
      });
    });
    counts = addCounts(counts, added);
  };

  const add = async (lines: Line[]): Promise<void> => {
    const nowMs = context.now().getTime();
    for (const line of lines) {
      addToBatch(batch, line, nowMs);
      if (!isFull(batch)) continue;
      const full = batch;
      batch = newBatch(unknownFields);
      noteRefusals(refusals, full);
      await storing;
      storing = store(full, null);
      // A failure is met at the next wait; until then it must not count as unhandled.
      storing.catch(() => {});
    }
  };

  const finish = async (fault: BodyFault | null, bound: Ending['bound']): Promise<DeliveryReply> => {
    await storing;
    noteRefusals(refusals, batch);
    await store(batch, { fault, bound });
    return toReply(counts);
  };

  return { add, finish, isEmpty: () => counts.received === 0 && batch.received === 0 };
}

function toColumns(ending: Ending | null) {
  if (ending === null) return { complete: false, status: 0, idempotencyKey: null, bodySha256: null };
  const { fault, bound } = ending;
  return {
    complete: fault === null,
    status: fault === null ? 200 : new SlipdriftError(fault.code, '').status,
    idempotencyKey: bound?.key ?? null,
    bodySha256: bound?.sha256 ?? null,
  };
}

async function upsert(transaction: Database, row: typeof receipts.$inferInsert): Promise<void> {
  const { id: _, ...set } = row;
  await transaction.insert(receipts).values(row).onConflictDoUpdate({ target: receipts.id, set });
}

function noteRefusals(refusals: FieldError[], batch: Batch): void {
  for (const { line, errors } of batch.refused)
    for (const { field, message } of errors) {
      if (refusals.length >= REFUSALS_SHOWN) return;
      refusals.push({ line, field, message });
    }
}
