import type { Database } from '#db/client.ts';
import { holdToStorage, StorageReplaced } from '#db/same-storage.ts';
import type { Given, Mapping } from '#server/contract/mappings.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import type { ProblemCode } from '#server/contract/words.ts';
import { SlipdriftError, toSlipdriftError } from '#server/errors.ts';
import { readCanLog } from '#server/services/can-log/read-can-log.ts';
import { toCanOptions } from '#server/services/can-log/to-can-options.ts';
import type { Context } from '#server/services/context.ts';
import { BodyFault } from './body-fault.ts';
import { guardBody } from './guard-body.ts';
import { hashBody } from './hash-body.ts';
import { answerKnownKey, type KeyClaim, withKey } from './idempotency-key.ts';
import type { Line } from './line.ts';
import { readMapped } from './mapped/read-mapped.ts';
import { createPlainRows, type PlainRows } from './plain/plain-rows.ts';
import { readCsv } from './read-csv.ts';
import { readJson } from './read-json.ts';
import { readNdjson } from './read-ndjson.ts';
import { newReadNotes, type ReadNotes } from './read-with.ts';
import { createReceiptWriter } from './write-receipt.ts';

export type DeliveryFormat = 'json' | 'ndjson' | 'csv' | 'can';

export interface Delivery {
  body: AsyncIterable<Uint8Array>;
  format: DeliveryFormat;
  contentType: string;
  /** how a CSV of another form is read; null for ours */
  mapping: Mapping | null;
  /** what its sender says of a body that its lines do not */
  given: Given;
  /** name of the file, or of the topic; null where it has none */
  file: string | null;
  gzip: boolean;
  limitBytes: number;
  /** columns of other names than ours are left out instead of refused; CSV only */
  ignoreUnknownColumns: boolean;
  idempotencyKey: string | null;
}

export interface DeliveryOutcome {
  reply: DeliveryReply;
  /** the answer to an earlier delivery with the same key and body */
  replayed: boolean;
  /** the body ended before its time: what came before the fault is stored, and the rest may be sent again with it */
  fault: BodyFault | null;
}

/**
 * Reads a delivery line by line, stores it batch by batch and answers after the last commit. While one batch is stored
 * the next is read; the body waits while both are full, so memory does not grow with it.
 */
export async function receiveDelivery(context: Context, delivery: Delivery): Promise<DeliveryOutcome> {
  const key = delivery.idempotencyKey;
  if (key === null) return readDelivery(context, delivery, null);
  return withKey(context, key, async (claim) => {
    if (claim.known === null) return readDelivery(context, delivery, claim);
    const body = hashBody(guardBody(delivery.body, delivery.gzip, delivery.limitBytes));
    await readThrough(body.chunks);
    return { reply: answerKnownKey(claim.known, body.sha256()), replayed: true, fault: null };
  });
}

async function readDelivery(
  context: Context,
  delivery: Delivery,
  claim: KeyClaim | null,
): Promise<DeliveryOutcome> {
  const guarded = guardBody(delivery.body, delivery.gzip, delivery.limitBytes);
  const hashed = claim === null ? null : hashBody(guarded);
  const held = { ...context, db: await holdToStorage(context.db) };
  const notes = newReadNotes();
  const { contentType, file } = delivery;
  const receipt = createReceiptWriter(held, { contentType, file, notes }, claim);
  const plain = createPlainRows(() => context.now().getTime(), receipt.waiting);
  let fault: BodyFault | null = null;
  try {
    try {
      for await (const lines of readLines(held.db, delivery, hashed?.chunks ?? guarded, notes, plain))
        await receipt.add(lines, plain.finishBlock());
    } catch (error) {
      if (!(error instanceof BodyFault)) throw error;
      fault = error;
    }
    if (fault !== null && receipt.isEmpty()) throw nothingStored(fault);
    const sha256 = fault === null && hashed !== null ? hashed.sha256() : null;
    return { reply: await receipt.finish(fault, sha256), replayed: false, fault };
  } catch (error) {
    receipt.leave();
    throw sayWhatIsKept(error, receipt.soFar());
  }
}

const ENDS_MIDWAY = [
  'storage_full',
  'storage_unavailable',
  'busy',
  'unauthorized',
  'not_allowed',
] as const satisfies readonly ProblemCode[];

/** Storage or access that ends midway has kept the batches before: the sender is told, and may send the whole body again. */
function sayWhatIsKept(error: unknown, kept: DeliveryReply): unknown {
  if (error instanceof StorageReplaced)
    return new SlipdriftError(
      'storage_unavailable',
      'The storage was replaced from a backup while this delivery came in. Nothing of it is kept; send it again whole.',
      { cause: error, retryAfterS: 5 },
    );
  const known = toSlipdriftError(error);
  const { code, retryAfterS } = known;
  if (kept.received === 0 || !(ENDS_MIDWAY as readonly string[]).includes(code)) return error;
  const why = known.message.slice(0, `${known.message} `.indexOf('. ') + 1);
  const when = code === 'unauthorized' || code === 'not_allowed' ? 'with access that works' : 'later';
  return new SlipdriftError(
    code,
    `${why} Of this body ${kept.received} lines were kept before (receipt ${kept.receipt}). Send the whole body again ${when}: what is there already is not stored twice.`,
    { cause: error, ...(retryAfterS === undefined ? {} : { retryAfterS }) },
  );
}

/**
 * The lines of a delivery, as they are cut and read; whether each can be a reading is seen later. Those that `plain` takes are
 * not among them; a block may then be empty.
 */
export function readLines(
  db: Database,
  delivery: Pick<Delivery, 'format' | 'mapping' | 'given' | 'ignoreUnknownColumns'>,
  chunks: AsyncIterable<Buffer>,
  notes: ReadNotes,
  plain: PlainRows | null = null,
): AsyncGenerator<Line[]> {
  const { format, mapping, given, ignoreUnknownColumns } = delivery;
  if (format === 'csv' && mapping !== null) return readMapped(chunks, { mapping, given }, notes);
  if (format === 'csv') return readCsv(chunks, ignoreUnknownColumns, notes);
  // A window of a CAN log is kept as the JSON of its reading.
  notes.readWith = { form: 'json' };
  if (format === 'can') return readCanLog(chunks, toCanOptions(db, given));
  return format === 'json' ? readJson(chunks) : readNdjson(chunks, plain);
}

async function readThrough(chunks: AsyncIterable<Buffer>): Promise<void> {
  try {
    for await (const _ of chunks);
  } catch (error) {
    throw error instanceof BodyFault ? nothingStored(error) : error;
  }
}

const nothingStored = (fault: BodyFault): SlipdriftError =>
  new SlipdriftError(fault.code, `${fault.message} Nothing was stored.`);
