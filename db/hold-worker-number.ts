import { randomInt } from 'node:crypto';
import { type Database, rawClient } from './client.ts';

/** First half of the locks of workers; the second is the worker's number. */
const WORKER_LOCK = 730_512;
const LARGEST = 2_147_483_647;

/** Text of SQL: numbers of the workers of this database that live. */
export const LIVING_WORKERS = `
  select objid::bigint::integer from pg_locks
  where locktype = 'advisory' and classid = ${WORKER_LOCK} and objsubid = 2 and granted
    and database = (select oid from pg_database where datname = current_database())`;

/**
 * Does `work` under a number that no other worker of this database has, which is gone with the connection that it takes
 * meanwhile: at once where this process dies, within half a minute where its machine does. Where that connection is lost,
 * `work` is told by the signal, and waited for.
 */
export async function holdWorkerNumber<T>(
  db: Database,
  work: (worker: number, lost: AbortSignal) => Promise<T>,
): Promise<T> {
  const lost = new AbortController();
  let working: Promise<T> | null = null;
  try {
    return await db.transaction(async (transaction) => {
      const client = rawClient(transaction);
      await client.unsafe(
        `set local idle_in_transaction_session_timeout = 0; set local tcp_keepalives_idle = 10;
        set local tcp_keepalives_interval = 5; set local tcp_keepalives_count = 3`,
      );
      for (;;) {
        const worker = randomInt(1, LARGEST);
        // Without a parameter: what has one leaves a snapshot open, which others wait for.
        const [row] = await client.unsafe(
          `select pg_try_advisory_xact_lock(${WORKER_LOCK}, ${worker}) as mine`,
        );
        if (row?.mine !== true) continue;
        working = work(worker, lost.signal);
        return await working;
      }
    });
  } finally {
    lost.abort();
    await (working as Promise<T> | null)?.catch(() => {});
  }
}
