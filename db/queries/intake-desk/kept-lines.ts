import { and, asc, count, eq, gt, inArray, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { receipts, refusedLines } from '#db/schema/intake.ts';

export interface LineFilter {
  ids?: readonly number[] | undefined;
  fault?: string | undefined;
  receipt?: string | undefined;
  sender?: string | undefined;
  state?: 'open' | 'let_in' | 'laid_aside' | undefined;
  afterId?: number | undefined;
}

export interface KeptLineRow {
  line: typeof refusedLines.$inferSelect;
  sender: string | null;
  file: string | null;
  readWith: unknown;
}

/**
 * Refused lines with what is needed to read them again, the oldest first. How a delivery is read has the names of all its
 * columns: it is read once for all lines of a receipt, not with each of thousands.
 */
export async function listKeptLines(db: Database, filter: LineFilter, limit: number): Promise<KeptLineRow[]> {
  const rows = await db
    .select({ line: refusedLines })
    .from(refusedLines)
    .leftJoin(receipts, eq(receipts.id, refusedLines.receipt))
    .where(toCondition(filter))
    .orderBy(asc(refusedLines.id))
    .limit(limit);
  const ids = [...new Set(rows.map(({ line }) => line.receipt))];
  const { id, sender, file, readWith } = receipts;
  const found =
    ids.length === 0
      ? []
      : await db.select({ id, sender, file, readWith }).from(receipts).where(inArray(id, ids));
  const receiptOf = new Map(found.map((receipt) => [receipt.id, receipt]));
  return rows.map(({ line }) => {
    const receipt = receiptOf.get(line.receipt);
    return {
      line,
      sender: receipt?.sender ?? null,
      file: receipt?.file ?? null,
      readWith: receipt?.readWith ?? null,
    };
  });
}

export async function countKeptLines(db: Database, filter: LineFilter): Promise<number> {
  const [row] = await db
    .select({ n: count() })
    .from(refusedLines)
    .leftJoin(receipts, eq(receipts.id, refusedLines.receipt))
    .where(toCondition(filter));
  return row?.n ?? 0;
}

const toCondition = ({ ids, fault, receipt, sender, state, afterId }: LineFilter): SQL | undefined =>
  and(
    ids === undefined ? undefined : inArray(refusedLines.id, [...ids]),
    fault === undefined ? undefined : eq(refusedLines.fault, fault),
    receipt === undefined ? undefined : eq(refusedLines.receipt, receipt),
    sender === undefined ? undefined : eq(receipts.sender, sender),
    state === undefined ? undefined : inState(state),
    afterId === undefined ? undefined : gt(refusedLines.id, afterId),
  );

/** The state is written out, not a parameter: only so a plan that is kept can use the index of the open ones. */
const inState = (state: NonNullable<LineFilter['state']>): SQL =>
  state === 'open' ? sql`${refusedLines.state} = 'open'` : eq(refusedLines.state, state);
