import { setTimeout as sleep } from 'node:timers/promises';
import { sql } from 'drizzle-orm';
import type { Database } from './client.ts';

const LOOK_MS = 2000;
/** So often the connection that holds the lock is asked whether it is still there. */
const CHECK_MS = 2000;

/**
 * Does `work` whenever no other process of this database holds `lock`, until it is asked to stop: for work that only one
 * program may do and another takes over. The signal that work is given also ends it, seconds later, where the lock is lost with its
 * connection; `onFault` is told once, and it is tried again. Takes a connection of its own only while it holds the lock.
 */
export async function keepLock(
  db: Database,
  lock: number,
  signal: AbortSignal,
  work: (signal: AbortSignal) => Promise<void>,
  onFault: (error: unknown) => void,
): Promise<void> {
  let isTold = false;
  while (!signal.aborted) {
    try {
      await db.transaction(async (transaction) => {
        const [row] = await transaction.execute<{ mine: boolean }>(
          // Without a parameter: what has one leaves a snapshot open, which others wait for.
          sql`select pg_try_advisory_xact_lock(${sql.raw(String(lock))}) as mine`,
        );
        if (row?.mine === true) await workWhileHeld(transaction, signal, work);
      });
      isTold = false;
    } catch (error) {
      // Storage is away, and the lock with it: whoever finds it back first goes on.
      if (!signal.aborted && !isTold) onFault(error);
      isTold = true;
    }
    await sleep(LOOK_MS, undefined, { signal, ref: false }).catch(() => {});
  }
}

async function workWhileHeld(
  transaction: Database,
  signal: AbortSignal,
  work: (signal: AbortSignal) => Promise<void>,
): Promise<void> {
  await transaction.execute(sql`set local idle_in_transaction_session_timeout = 0`);
  const lost = new AbortController();
  let isDone = false;
  const working = work(AbortSignal.any([signal, lost.signal])).finally(() => {
    isDone = true;
  });
  const settled = working.catch(() => {});
  try {
    while (!isDone) {
      await Promise.race([settled, sleep(CHECK_MS, undefined, { ref: false })]);
      if (!isDone && !signal.aborted) await transaction.execute(sql`select 1`);
    }
  } finally {
    lost.abort();
    await settled;
  }
  await working;
}
