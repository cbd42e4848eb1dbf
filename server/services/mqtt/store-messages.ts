import { holdToStorage } from '#db/same-storage.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { toSlipdriftError } from '#server/errors.ts';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { badLine, type Line } from '#server/services/intake/line.ts';
import { newReadNotes } from '#server/services/intake/read-with.ts';
import { createReceiptWriter } from '#server/services/intake/write-receipt.ts';
import type { Message } from './message.ts';
import { readPayload } from './read-payload.ts';
import { vehicleOfTopic } from './vehicle-of-topic.ts';

export interface StoreOptions {
  /** filter of the topics */
  topic: string;
  limitBytes: number;
}

const RAW_LOOKED_AT_BYTES = 16_384;

/** Stores messages as one delivery with one receipt; answers after its commit. Lines are numbered over all of them. */
export async function storeMessages(
  ctx: Context,
  messages: readonly Message[],
  { topic: filter, limitBytes }: StoreOptions,
): Promise<DeliveryReply[]> {
  const read = ({ topic, payload }: Message) =>
    readPayload(payload, vehicleOfTopic(filter, topic), limitBytes);
  try {
    return [await storeLines(ctx, messages, filter, read)];
  } catch (error) {
    if (toSlipdriftError(error).code !== 'internal') throw error;
    if (messages.length > 1) return storeEach(ctx, messages, { topic: filter, limitBytes });
    ctx.log.error({ err: error, topic: messages[0]?.topic }, 'a message could not be stored');
    return [await storeLines(ctx, messages, filter, readNothing)];
  }
}

/** One that cannot be stored must not keep the others out. */
async function storeEach(
  ctx: Context,
  messages: readonly Message[],
  options: StoreOptions,
): Promise<DeliveryReply[]> {
  const replies: DeliveryReply[] = [];
  for (const message of messages) replies.push(...(await storeMessages(ctx, [message], options)));
  return replies;
}

async function storeLines(
  ctx: Context,
  messages: readonly Message[],
  file: string,
  read: (message: Message) => AsyncGenerator<Line[]>,
): Promise<DeliveryReply> {
  const held = { ...ctx, actor: programActor('mqtt'), db: await holdToStorage(ctx.db) };
  const notes = { ...newReadNotes(), readWith: { form: 'json' as const } };
  const receipt = createReceiptWriter(held, { contentType: 'mqtt', file, notes }, null);
  let count = 0;
  for (const message of messages)
    for await (const lines of read(message))
      await receipt.add(
        lines.map((line) => {
          count += 1;
          return { ...line, line: count };
        }),
      );
  return receipt.finish(null, null);
}

/** Of a message that reading or storing stumbles over: kept as it came, or it would come for ever. */
async function* readNothing({ payload }: Message): AsyncGenerator<Line[]> {
  const raw = payload.subarray(0, RAW_LOOKED_AT_BYTES).toString('utf8');
  yield [badLine(1, raw, 'could not be stored; the log says why')];
}
