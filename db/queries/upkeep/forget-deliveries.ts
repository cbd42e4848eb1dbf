import { type Database, rawClient } from '#db/client.ts';

/** Rows that one statement takes away, so that no transaction is long. */
const AT_ONCE = 10_000;

/**
 * Takes away refused lines that were settled before a moment, and receipts of before it that no refused line needs any
 * more. Lines that are open stay, with their receipts, however old they are. Answers how many went.
 */
export async function forgetDeliveries(
  db: Database,
  before: Date,
  signal: AbortSignal,
): Promise<{ receipts: number; lines: number }> {
  const client = rawClient(db);
  const repeat = async (remove: () => Promise<{ count: number }>): Promise<number> => {
    let sum = 0;
    for (;;) {
      signal.throwIfAborted();
      const { count } = await remove();
      sum += count;
      if (count < AT_ONCE) return sum;
    }
  };
  const lines = await repeat(
    () => client`
      delete from refused_lines where id in (
        select id from refused_lines where state <> 'open' and settled_at < ${before}
        order by id limit ${AT_ONCE})`,
  );
  const receipts = await repeat(
    () => client`
      delete from receipts where id in (
        select id from receipts r where at < ${before} and coalesce(ended_at, at) < ${before}
          and not exists (select from refused_lines l where l.receipt = r.id)
        order by at limit ${AT_ONCE})`,
  );
  return { receipts, lines };
}
