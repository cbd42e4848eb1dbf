import type { Database } from '#db/client.ts';
import { settleLines } from '#db/queries/intake-desk/settle-lines.ts';
import { toReadingColumns } from '#db/queries/reading-columns.ts';
import { receipts } from '#db/schema/intake.ts';
import type { Reading } from '#server/contract/readings.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { senderOf } from '#server/services/actor.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { newBatch } from '#server/services/intake/batch.ts';
import { addCounts, type Counts, noCounts } from '#server/services/intake/counts.ts';
import { storeBatch } from '#server/services/intake/store-batch.ts';
import { CORRECTED_TYPE } from './list-receipts.ts';

export interface GoodLine {
  id: number;
  /** who delivered it, to whom it still counts */
  sender: string;
  reading: Reading;
}

/** A receipt under which lines are let in, and what it has come to. */
export interface CorrectionReceipt {
  id: string;
  at: Date;
  counts: Counts;
}

export const openReceipt = (id: string, at: Date): CorrectionReceipt => ({ id, at, counts: noCounts });

/** Somebody else has settled one of these lines: nothing of this batch was stored, and these are still open. */
class SettledMeanwhile extends Error {
  readonly open: ReadonlySet<number>;

  constructor(open: ReadonlySet<number>) {
    super('settled meanwhile');
    this.open = open;
  }
}

/**
 * Stores lines that have become readings. Each batch is one transaction with its receipt, the new state of its lines and
 * the note of who did it: a line is let in once, whoever else works on it. Answers the receipt as it stands then.
 */
export async function letLinesIn(
  ctx: Context,
  receipt: CorrectionReceipt,
  lines: readonly GoodLine[],
  note: { fault: string } & Record<string, unknown>,
): Promise<CorrectionReceipt> {
  let now = receipt;
  for (const sender of new Set(lines.map((line) => line.sender)))
    for (let left = lines.filter((line) => line.sender === sender); left.length > 0; ) {
      try {
        now = await storeOne(ctx, now, sender, left, note);
        break;
      } catch (error) {
        if (!(error instanceof SettledMeanwhile)) throw error;
        left = left.filter(({ id }) => error.open.has(id));
      }
    }
  return now;
}

async function storeOne(
  ctx: Context,
  receipt: CorrectionReceipt,
  sender: string,
  lines: readonly GoodLine[],
  note: { fault: string } & Record<string, unknown>,
): Promise<CorrectionReceipt> {
  const readings = toReadingColumns(lines.map(({ reading }) => reading));
  const batch = { ...newBatch(new Map()), received: lines.length, readings };
  const owner = { receipt: receipt.id, sender, earlierTo: null, arrivedAt: ctx.now() };
  let total = receipt.counts;
  await storeBatch(ctx.db, owner, batch, async (transaction, added) => {
    const ids = lines.map(({ id }) => id);
    const settled = await settleLines(transaction, ids, {
      from: ['open'],
      state: 'let_in',
      at: ctx.now(),
      by: ctx.actor.name,
      receipt: receipt.id,
    });
    if (settled.length < ids.length) throw new SettledMeanwhile(new Set(settled));
    total = addCounts(receipt.counts, added);
    await writeReceipt(transaction, ctx, receipt, total);
    const after = { ...note, lines: lines.length, receipt: receipt.id };
    await noteChanges(transaction, ctx, [
      { action: 'let_in', subject: 'refused_lines', subjectId: note.fault, after },
    ]);
  });
  return { ...receipt, counts: total };
}

async function writeReceipt(
  transaction: Database,
  ctx: Context,
  { id, at }: CorrectionReceipt,
  counts: Counts,
): Promise<void> {
  const reply: DeliveryReply = { receipt: id, ...counts, refusals: [], unknown_fields: [] };
  const set = { ...counts, reply, endedAt: ctx.now() };
  await transaction
    .insert(receipts)
    .values({
      id,
      at,
      sender: senderOf(ctx.actor),
      contentType: CORRECTED_TYPE,
      complete: true,
      status: 200,
      ...set,
    })
    .onConflictDoUpdate({ target: receipts.id, set });
}
