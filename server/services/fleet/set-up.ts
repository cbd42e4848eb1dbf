import { isDeepStrictEqual } from 'node:util';
import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import type { SetUpReply } from '#server/contract/fleet.ts';
import { type NotedChange, noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';

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

export interface SetUpOptions {
  /** does all of it and takes it back */
  dryRun?: boolean;
  /** of the file that the elements are from; else they are counted from 1 */
  lines?: readonly number[];
}

/** A change as it is written down, with the element that asked for it; what only follows from others has none. */
export interface SetUpChange extends NotedChange {
  line?: number;
}

export interface SetUpWork {
  changes: Change[];
  noted: SetUpChange[];
}

export interface SetUpOutcome {
  reply: SetUpReply;
  noted: SetUpChange[];
}

/** What `work` changes is written down with it; a dry run does all that and keeps nothing of it. */
export async function runSetUp(
  context: Context,
  { dryRun = false }: SetUpOptions,
  work: (inside: Context) => Promise<SetUpWork>,
): Promise<SetUpOutcome> {
  try {
    return await inSetUp(context.db, async (transaction) => {
      const { changes, noted } = await work({ ...context, db: transaction });
      await noteChanges(transaction, context, noted);
      const outcome = { reply: countChanges(changes), noted };
      if (dryRun) throw new TakenBack(outcome);
      return outcome;
    });
  } catch (error) {
    if (error instanceof TakenBack) return error.outcome;
    throw error;
  }
}

/** Ends the transaction of a dry run. */
class TakenBack extends Error {
  readonly outcome: SetUpOutcome;

  constructor(outcome: SetUpOutcome) {
    super('a dry run keeps nothing');
    this.outcome = outcome;
  }
}

/** What a change of the set-up is called in the list of changes. */
export const actionOf = (before: object | null | undefined): { action: 'created' | 'changed' } => ({
  action: before == null ? 'created' : 'changed',
});

function countChanges(changes: Iterable<Change>): SetUpReply {
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
