import { asc, count, eq } from 'drizzle-orm';
import { openLinesOf } from '#db/queries/intake-desk/list-receipts.ts';
import { receipts, refusedLines } from '#db/schema/intake.ts';
import type { Receipt } from '#server/contract/receipts.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { nameSenders } from '#server/services/intake-desk/name-senders.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import type { ReadWith } from './read-with.ts';

/** A receipt with a page of its refused lines. */
export async function findReceipt(
  { db, actor }: Context,
  id: string,
  page: { limit: number; offset: number },
): Promise<Receipt> {
  requireAllDepots(actor, 'A receipt, whose lines may be of any vehicle,');
  const [row] = await db
    .select({ found: receipts, refusedOpen: openLinesOf })
    .from(receipts)
    .where(eq(receipts.id, id));
  const found = row?.found;
  if (found === undefined) throw new SlipdriftError('not_found', `There is no receipt ${id}.`);
  const ofReceipt = eq(refusedLines.receipt, id);
  const [total] = await db.select({ n: count() }).from(refusedLines).where(ofReceipt);
  const lines = await db
    .select({ line: refusedLines.line, raw: refusedLines.raw, errors: refusedLines.errors })
    .from(refusedLines)
    .where(ofReceipt)
    .orderBy(asc(refusedLines.line), asc(refusedLines.id))
    .limit(page.limit)
    .offset(page.offset);
  const nameSender = await nameSenders(db, [found.sender]);
  const { received, stored, duplicate, conflicting, refused } = found;
  return {
    receipt: found.id,
    at: found.at.toISOString(),
    content_type: found.contentType,
    complete: found.complete,
    received,
    stored,
    duplicate,
    conflicting,
    refused,
    ended_at: found.endedAt?.toISOString() ?? null,
    sender: nameSender(found.sender),
    file: found.file,
    refused_open: row?.refusedOpen ?? 0,
    read_with: found.readWith as ReadWith | null,
    refused_lines: lines,
    refused_lines_total: total?.n ?? 0,
  };
}
