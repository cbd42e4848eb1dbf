import { sql } from 'drizzle-orm';
import { type Database, type RawClient, rawClient } from '#db/client.ts';
import { settledMonths } from '#db/schema/upkeep.ts';
import { listReadingMonths, type ReadingMonth } from './list-reading-months.ts';

/** How long to wait for those who write to a month or still read an old state of it. */
const WAIT_FOR_OTHERS = '60s';
/** A moment's rest for each so many pages, so that what is asked meanwhile is answered. */
const REST_MS = 1;
/** Of an index over vehicle and time that is written anew, with all its pages full. */
const FULL_INDEX_BYTES_A_READING = 28.5;
/** An index is written anew where that makes it smaller by a tenth, and by so much. */
const WORTH_SHARE = 1.1;
const WORTH_BYTES = 128 * 1024;

/**
 * Puts a month that is over in order, while it can be read and written: its rows are marked so that they need no visit
 * ever after, its statistics are made, its index is written anew with full pages where it has grown loose, and what it holds
 * is counted. A signal ends it; the next time begins anew.
 */
export async function settleMonth(
  db: Database,
  { month, table, tableId }: ReadingMonth,
  now: Date,
  signal: AbortSignal,
): Promise<void> {
  const connection = await rawClient(db).reserve();
  const run = (text: string) => runUntil(connection, text, signal);
  try {
    await run(`set lock_timeout = '${WAIT_FOR_OTHERS}'`);
    await run(`set vacuum_cost_delay = ${REST_MS}`);
    await run(`vacuum (freeze, analyze) ${table}`);
    const [held] = await run(
      `select count(*) as rows, min(at) as "firstAt", max(at) as "lastAt" from ${table}`,
    );
    const rows = Number(held?.rows ?? 0);
    const before = await sizesOf(run, table);
    if (isLoose(before.index, rows)) await rewriteIndex(run, table);
    const after = await sizesOf(run, table);
    const figures = {
      tableId,
      settledAt: now,
      rows,
      firstAt: held?.firstAt as Date | null,
      lastAt: held?.lastAt as Date | null,
      heapBytes: after.heap,
      indexBytesBefore: before.index,
      indexBytes: after.index,
    };
    await db
      .insert(settledMonths)
      .values({ month, ...figures })
      .onConflictDoUpdate({ target: settledMonths.month, set: figures });
  } finally {
    await connection.unsafe('reset lock_timeout; reset vacuum_cost_delay').catch(() => {});
    connection.release();
  }
}

/** Statistics of all months together, which nothing makes by itself; where that reads every month anew, not. */
export async function analyseReadings(db: Database): Promise<void> {
  const [row] = await rawClient(db).unsafe(`select current_setting('server_version_num')::int as version`);
  if (Number(row?.version) >= 180_000) await rawClient(db).unsafe('analyze only readings');
}

/** What is no longer there is not remembered, and an index that a rewriting left unfinished goes. */
export async function clearSettled(db: Database): Promise<void> {
  const months = (await listReadingMonths(db)).map(({ month }) => month);
  await db.execute(sql`delete from settled_months where not (month = any (${sql.param(months)}::text[]))`);
  const left = await rawClient(db)<{ name: string }[]>`
    select x.indexrelid::regclass::text as name
    from pg_index x join pg_class c on c.oid = x.indexrelid join pg_inherits i on i.inhrelid = x.indrelid
    where i.inhparent = 'public.readings'::regclass and not x.indisvalid and c.relname ~ '_ccnew[0-9]*$'`;
  for (const { name } of left) await rawClient(db).unsafe(`drop index if exists ${name}`);
}

function isLoose(indexBytes: number, rows: number): boolean {
  const full = rows * FULL_INDEX_BYTES_A_READING;
  return indexBytes > full * WORTH_SHARE && indexBytes > full + WORTH_BYTES;
}

type Run = (text: string) => Promise<readonly Record<string, unknown>[]>;

async function rewriteIndex(run: Run, table: string): Promise<void> {
  const found = await run(
    `select indexrelid::regclass::text as name from pg_index where indrelid = 'public.${table}'::regclass and indisprimary`,
  );
  for (const { name } of found) {
    await run(`alter index ${String(name)} set (fillfactor = 100)`);
    await run(`reindex index concurrently ${String(name)}`);
  }
}

async function sizesOf(run: Run, table: string): Promise<{ heap: number; index: number }> {
  const [row] = await run(
    `select pg_table_size('public.${table}') as heap, pg_indexes_size('public.${table}') as index`,
  );
  return { heap: Number(row?.heap), index: Number(row?.index) };
}

async function runUntil(
  connection: Awaited<ReturnType<RawClient['reserve']>>,
  text: string,
  signal: AbortSignal,
): Promise<readonly Record<string, unknown>[]> {
  signal.throwIfAborted();
  const query = connection.unsafe(text);
  const cancel = () => query.cancel();
  signal.addEventListener('abort', cancel, { once: true });
  try {
    return await query;
  } finally {
    signal.removeEventListener('abort', cancel);
  }
}
