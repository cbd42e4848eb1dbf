import { eq, max } from 'drizzle-orm';
import { type RawClient, rawClient } from '#db/client.ts';
import { receipts, refusedLines } from '#db/schema/intake.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError } from '#server/errors.ts';
import { senderOf } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';

export interface KnownDelivery {
  bodySha256: string | null;
  reply: DeliveryReply;
}

/** An earlier try of a delivery that has not ended; it may still run in another process. */
export interface UnfinishedDelivery {
  receipt: string;
  at: Date;
  /** id of the last refused line that it has kept */
  refusedTo: number;
}

export interface KeyClaim {
  /** as the sender gave it */
  key: string;
  /** as it is stored: every sender has keys of its own */
  stored: string;
  known: KnownDelivery | null;
  unfinished: UnfinishedDelivery | null;
}

const PRINTABLE = /^[\x21-\x7e]{1,255}$/;
const UNIQUE_VIOLATION = '23505';

const inProgress = new WeakMap<RawClient, Set<string>>();

/**
 * Runs `work` as the only delivery of this process with this key. Another process that takes the same key at the same
 * time is met when the receipt is stored: one of the two is refused and may ask again. Readings are kept once anyway.
 */
export async function withKey<T>(
  context: Context,
  key: string,
  work: (claim: KeyClaim) => Promise<T>,
): Promise<T> {
  if (!PRINTABLE.test(key))
    throw new SlipdriftError(
      'invalid_request',
      'The Idempotency-Key must have 1 to 255 printable characters without spaces. Nothing was stored.',
      { errors: [{ field: 'Idempotency-Key', message: 'must be 1 to 255 printable characters' }] },
    );
  const stored = `${senderOf(context.actor)} ${key}`;
  const running = keysInProgress(rawClient(context.db));
  if (running.has(stored)) throw stillInProgress(key);
  running.add(stored);
  try {
    return await work({ key, stored, ...(await findDelivery(context, stored)) });
  } catch (error) {
    if (isKeyTaken(error)) throw stillInProgress(key);
    throw error;
  } finally {
    running.delete(stored);
  }
}

/** The stored reply to the same body; another body under the same key is a mistake of the sender. */
export function answerKnownKey(known: KnownDelivery, bodySha256: string): DeliveryReply {
  if (known.bodySha256 === bodySha256) return known.reply;
  throw new SlipdriftError(
    'key_reused',
    `This Idempotency-Key came before with another body, answered by receipt ${known.reply.receipt}. Nothing of this body was stored; send it with a new key.`,
  );
}

async function findDelivery(
  context: Context,
  stored: string,
): Promise<Pick<KeyClaim, 'known' | 'unfinished'>> {
  const [row] = await context.db.select().from(receipts).where(eq(receipts.idempotencyKey, stored));
  if (row === undefined) return { known: null, unfinished: null };
  if (row.complete)
    return { known: { bodySha256: row.bodySha256, reply: row.reply as DeliveryReply }, unfinished: null };
  const [kept] = await context.db
    .select({ to: max(refusedLines.id) })
    .from(refusedLines)
    .where(eq(refusedLines.receipt, row.id));
  return { known: null, unfinished: { receipt: row.id, at: row.at, refusedTo: kept?.to ?? 0 } };
}

function keysInProgress(client: RawClient): Set<string> {
  const keys = inProgress.get(client) ?? new Set<string>();
  inProgress.set(client, keys);
  return keys;
}

export const stillInProgress = (key: string): SlipdriftError =>
  new SlipdriftError(
    'key_in_progress',
    `A delivery with the Idempotency-Key '${key}' is being stored. Ask again when it has been answered.`,
    { retryAfterS: 2 },
  );

function isKeyTaken(error: unknown): boolean {
  for (let at = error, depth = 0; at instanceof Error && depth < 5; at = at.cause, depth += 1)
    if ((at as { code?: unknown }).code === UNIQUE_VIOLATION) return true;
  return false;
}
