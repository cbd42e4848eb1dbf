import { isDeepStrictEqual } from 'node:util';
import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import type { SetUpReply } from '#server/contract/fleet.ts';

/** Any fixed number: set-up calls, which are rare, run one after the other. */
const SET_UP_LOCK = 730_511_510;

export type Change = keyof SetUpReply;

/** Runs one set-up call as one transaction: all of it happens, or nothing. */
export function inSetUp<T>(db: Database, work: (transaction: Database) => Promise<T>): Promise<T> {
  return db.transaction(async (transaction) => {
    await transaction.execute(sql`select pg_advisory_xact_lock(${SET_UP_LOCK})`);
    return work(transaction);
  });
}

/** What a change of the set-up is called in the list of changes. */
export const actionOf = (before: object | null | undefined): { action: 'created' | 'changed' } => ({
  action: before == null ? 'created' : 'changed',
});

export function countChanges(changes: Iterable<Change>): SetUpReply {
  const reply: SetUpReply = { created: 0, changed: 0, unchanged: 0 };
  for (const change of changes) reply[change] += 1;
  return reply;
}

/** Names of the fields that differ. */
export function changedFields<T extends object>(before: T, after: T): (keyof T)[] {
  return (Object.keys(after) as (keyof T)[]).filter(
    (field) => !isDeepStrictEqual(before[field], after[field]),
  );
}
