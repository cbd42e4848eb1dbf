import { and, desc, eq, gt, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { containsText } from '#db/queries/contains-text.ts';
import { receipts } from '#db/schema/intake.ts';

export interface ReceiptFilter {
  sender?: string | undefined;
  fileText?: string | undefined;
  withRefused: boolean;
  incomplete: boolean;
}

/**
 * Refused lines of a receipt that nobody has settled; none are looked for where none were refused. Names are written out:
 * alone in a statement a column comes without its table.
 */
export const openLinesOf: SQL<number> = sql<number>`case when receipts.refused = 0 then 0 else
  (select count(*)::int from refused_lines l where l.receipt = receipts.id and l.state = 'open') end`;

/** A page of receipts, newest first. */
export function listReceipts(
  db: Database,
  { sender, fileText, withRefused, incomplete }: ReceiptFilter,
  { limit, offset }: { limit: number; offset: number },
) {
  return db
    .select({
      id: receipts.id,
      at: receipts.at,
      endedAt: receipts.endedAt,
      sender: receipts.sender,
      contentType: receipts.contentType,
      file: receipts.file,
      complete: receipts.complete,
      status: receipts.status,
      received: receipts.received,
      stored: receipts.stored,
      duplicate: receipts.duplicate,
      conflicting: receipts.conflicting,
      refused: receipts.refused,
      refusedOpen: openLinesOf,
    })
    .from(receipts)
    .where(
      and(
        sender === undefined ? undefined : eq(receipts.sender, sender),
        fileText === undefined ? undefined : containsText(receipts.file, fileText),
        withRefused ? gt(receipts.refused, 0) : undefined,
        incomplete ? eq(receipts.complete, false) : undefined,
      ),
    )
    .orderBy(desc(receipts.at), desc(receipts.id))
    .limit(limit)
    .offset(offset);
}

export type ListedReceiptRow = Awaited<ReturnType<typeof listReceipts>>[number];
