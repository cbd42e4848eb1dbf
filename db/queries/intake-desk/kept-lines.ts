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

/** Refused lines with what is needed to read them again, the oldest first. */
export function listKeptLines(db: Database, filter: LineFilter, limit: number) {
  return db
    .select({ line: refusedLines, sender: receipts.sender, file: receipts.file, readWith: receipts.readWith })
    .from(refusedLines)
    .leftJoin(receipts, eq(receipts.id, refusedLines.receipt))
    .where(toCondition(filter))
    .orderBy(asc(refusedLines.id))
    .limit(limit);
}

export type KeptLineRow = Awaited<ReturnType<typeof listKeptLines>>[number];

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
