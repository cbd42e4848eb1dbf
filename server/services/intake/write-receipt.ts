import { randomUUID } from 'node:crypto';
import { and, eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { receipts } from '#db/schema/intake.ts';
import type { FieldError } from '#server/contract/problems.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError } from '#server/errors.ts';
import { senderOf } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { addPlain, addToBatch, type Batch, isBeginning, isFull, newBatch, nextBatch } from './batch.ts';
import type { BodyFault } from './body-fault.ts';
import { addCounts, type Counts, noCounts } from './counts.ts';
import { type KeyClaim, stillInProgress } from './idempotency-key.ts';
import { joinTries } from './join-tries.ts';
import type { Line } from './line.ts';
import { listUnknownFields } from './note-unknown-fields.ts';
import type { PlainBlock } from './plain/plain-rows.ts';
import type { ReadNotes } from './read-with.ts';
import { giveBack } from './spare-columns.ts';
import { storeBatch } from './store-batch.ts';

const REFUSALS_SHOWN = 20;
/** A delivery may take an hour, and its sender's access may end meanwhile: looked at again before a batch is stored. */
const CONFIRM_EVERY_MS = 1000;
/** A body of which nothing comes for so long pauses. */
const PAUSE_MS = 100;

interface WrittenDelivery {
  contentType: string;
  file: string | null;
  /** filled as the lines are read */
  notes: ReadNotes;
}

interface Ending {
  fault: BodyFault | null;
  sha256: string | null;
}

/**
 * Takes a delivery's lines and keeps its receipt. The receipt is brought up to date with every batch, in the same
 * transaction: when this process dies midway, it says what was stored, marked as incomplete. It has the sender's key from
 * the first batch on, and the next try with this key goes on with the same receipt: so each refused line is kept once.
 */
export function createReceiptWriter(
  context: Context,
  { contentType, file, notes }: WrittenDelivery,
  claim: KeyClaim | null,
) {
  const unfinished = claim?.unfinished ?? null;
  const id = unfinished?.receipt ?? randomUUID();
  // Also tells whose receipt it is: a try that has gone on elsewhere meanwhile must not write to it any more.
  const at = new Date(Math.max(context.now().getTime(), (unfinished?.at.getTime() ?? 0) + 1));
  let heldSince = unfinished?.at ?? at;
  let earlier: Counts | null = null;
  const refusals: FieldError[] = [];
  const unknownFields = new Map<string, number>();
  let counts: Counts = noCounts;
  let batch = newBatch(unknownFields);
  let storing: Promise<void> = Promise.resolve();
  let pausing: NodeJS.Timeout | undefined;

  const toTotal = (latest: Counts, ending: Ending | null): Counts =>
    joinTries(earlier, latest, ending !== null && ending.fault === null);
  const toReply = (total: Counts): DeliveryReply => ({
    receipt: id,
    ...total,
    refusals,
    unknown_fields: listUnknownFields(new Map([...unknownFields, ...notes.leftOut])),
    ...(notes.rows === null ? {} : { rows: notes.rows }),
  });

  let confirmedMs = performance.now();
  const confirm = async (): Promise<void> => {
    if (performance.now() - confirmedMs < CONFIRM_EVERY_MS) return;
    await context.actor.confirm?.();
    confirmedMs = performance.now();
  };

  const store = async (full: Batch, ending: Ending | null): Promise<void> => {
    await confirm();
    const owner = {
      receipt: id,
      sender: senderOf(context.actor),
      earlierTo: unfinished?.refusedTo ?? null,
      arrivedAt: context.now(),
    };
    const added = await storeBatch(context.db, owner, full, async (transaction, now) => {
      if (heldSince !== at) {
        earlier = await takeOver(transaction, id, heldSince);
        if (earlier === null) throw stillInProgress(claim?.key ?? '');
      }
      const total = toTotal(addCounts(counts, now), ending);
      const row = {
        id,
        at,
        sender: senderOf(context.actor),
        contentType,
        file,
        readWith: notes.readWith,
        endedAt: ending === null ? null : context.now(),
        ...total,
        reply: toReply(total),
        ...toColumns(ending, claim),
      };
      if (!(await upsert(transaction, row, heldSince))) throw stillInProgress(claim?.key ?? '');
    });
    counts = addCounts(counts, added);
    heldSince = at;
  };

  const storeFull = async (): Promise<void> => {
    const full = batch;
    batch = nextBatch(full);
    noteRefusals(refusals, full);
    await storing;
    storing = store(full, null).then(() => giveBack(full.readings));
    // A failure is met at the next wait; until then it must not count as unhandled.
    storing.catch(() => {});
  };

  const leave = (): void => clearTimeout(pausing);

  const add = async (lines: Line[], plain: PlainBlock | null = null): Promise<void> => {
    leave();
    const nowMs = context.now().getTime();
    if (plain !== null) addPlain(batch, plain);
    for (const line of lines) {
      addToBatch(batch, line, nowMs);
      // Plain lines are counted before the others of their block: only together are they in order.
      if (plain === null && isFull(batch)) await storeFull();
    }
    if (isFull(batch)) await storeFull();
    if (isBeginning(batch)) pausing = setTimeout(storeFull, PAUSE_MS);
  };

  const finish = async (fault: BodyFault | null, sha256: string | null): Promise<DeliveryReply> => {
    leave();
    await storing;
    noteRefusals(refusals, batch);
    const ending = { fault, sha256 };
    await store(batch, ending);
    giveBack(batch.readings);
    return toReply(toTotal(counts, ending));
  };

  return {
    add,
    /** where readings of this body wait now: whoever puts one there says so with the next `add` */
    waiting: () => batch.readings,
    finish,
    /** Stores nothing more by itself; what was begun goes on. */
    leave,
    /** of an unfinished delivery: what is committed of it */
    soFar: (): DeliveryReply => toReply(toTotal(counts, null)),
    isEmpty: () => counts.received === 0 && batch.received === 0,
  };
}

/** A body with a fault of its own will come corrected, as another delivery: it leaves the key free. */
function toColumns(ending: Ending | null, claim: KeyClaim | null) {
  const key = claim?.stored ?? null;
  if (ending === null) return { complete: false, status: 0, idempotencyKey: key, bodySha256: null };
  const { fault, sha256 } = ending;
  return {
    complete: fault === null,
    status: fault === null ? 200 : new SlipdriftError(fault.code, '').status,
    idempotencyKey: fault === null || fault.cutOff ? key : null,
    bodySha256: fault === null ? sha256 : null,
  };
}

/**
 * What a try before has stored under this receipt. Its program may have gone on with it since the key was looked up, so it
 * is read here, where nobody can write to the receipt but us. Null where that try ended well, or another took it over.
 */
async function takeOver(transaction: Database, id: string, heldSince: Date): Promise<Counts | null> {
  const { received, stored, duplicate, conflicting, refused } = receipts;
  const [counts] = await transaction
    .select({ received, stored, duplicate, conflicting, refused })
    .from(receipts)
    .where(and(eq(receipts.id, id), eq(receipts.at, heldSince), eq(receipts.complete, false)))
    .for('update');
  return counts ?? null;
}

/** Answers false where the receipt is another's by now. */
async function upsert(
  transaction: Database,
  row: typeof receipts.$inferInsert,
  heldSince: Date,
): Promise<boolean> {
  const { id: _, ...set } = row;
  const written = await transaction
    .insert(receipts)
    .values(row)
    .onConflictDoUpdate({ target: receipts.id, set, setWhere: eq(receipts.at, heldSince) })
    .returning({ id: receipts.id });
  return written.length > 0;
}

function noteRefusals(refusals: FieldError[], batch: Batch): void {
  for (const { line, errors } of batch.refused)
    for (const { field, message } of errors) {
      if (refusals.length >= REFUSALS_SHOWN) return;
      refusals.push({ line, field, message });
    }
}
