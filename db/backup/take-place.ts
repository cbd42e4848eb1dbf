import { setTimeout as sleep } from 'node:timers/promises';
import type { RawTransaction } from '#db/connection.ts';
import { cutOffReaders, dropViews, placeViews } from '#db/notebook/place-views.ts';
import { StorageError } from '#db/storage-error.ts';
import { listOuterTables } from './learn-tables.ts';
import { quoteName } from './quote-name.ts';
import { STAGE } from './stage.ts';

const LIVE = 'public';
/**
 * Below PostgreSQL's `deadlock_timeout` of 1 s: where a delivery and we wait for each other, it is we who give up and
 * try again.
 */
const LOCK_MS = 400;
const RETRY_MS = 150;
const HELD_UP_S = 120;

/** Takes hold of the tables that are there: others wait from now on. `known` are ours to take; nobody else's. */
export async function holdOldTables(
  transaction: RawTransaction,
  known: ReadonlySet<string>,
): Promise<string[]> {
  const old = (await listOuterTables(transaction, LIVE)).filter((name) => known.has(name));
  await cutOffReaders(transaction);
  await lockTables(transaction, old);
  return old;
}

/**
 * Puts what was built up in the place of the old tables. Others worked on those until they were held; they find the new
 * ones at the end of the transaction.
 */
export async function takePlace(transaction: RawTransaction, old: readonly string[]): Promise<void> {
  try {
    await dropViews(transaction);
    for (const { kind, name } of await listOther(transaction, 'v'))
      await transaction.unsafe(`drop ${kind} if exists ${LIVE}.${name}`);
    if (old.length > 0) await transaction.unsafe(`drop table ${old.map(inLive).join(', ')}`);
    for (const { kind, name } of await listOther(transaction, 'o'))
      await transaction.unsafe(`drop ${kind} if exists ${LIVE}.${name}`);
  } catch (error) {
    const { code, detail } = error as { code?: string; detail?: string };
    if (code !== '2BP01') throw error;
    throw new StorageError(
      `Others depend on the tables that the backup is to replace: ${detail?.replaceAll('\n', ', ')}. Nothing was changed; remove those first.`,
    );
  }
  for (const name of await listAllTables(transaction))
    await transaction.unsafe(`alter table ${STAGE}.${quoteName(name)} set schema ${LIVE}`);
  for (const { kind, name } of [
    ...(await listOther(transaction, 'o')),
    ...(await listOther(transaction, 'v')),
  ])
    await transaction.unsafe(`alter ${kind} ${STAGE}.${name} set schema ${LIVE}`);
  await transaction.unsafe(`set local search_path to ${LIVE}; drop schema ${STAGE}`);
  await placeViews(transaction);
}

const inLive = (name: string) => `${LIVE}.${quoteName(name)}`;

/** All at once or none: held halfway, they would keep others from ending what we wait for. */
async function lockTables(transaction: RawTransaction, tables: readonly string[]): Promise<void> {
  if (tables.length === 0) return;
  const deadline = Date.now() + HELD_UP_S * 1000;
  await transaction.unsafe(`set local lock_timeout = ${LOCK_MS}`);
  for (;;) {
    try {
      await transaction.savepoint((inner) =>
        inner.unsafe(`lock table ${tables.map(inLive).join(', ')} in access exclusive mode`),
      );
      await transaction.unsafe('set local lock_timeout = 0');
      return;
    } catch (error) {
      const { code } = error as { code?: string };
      if (code !== '55P03' && code !== '40P01') throw error;
      if (Date.now() > deadline)
        throw new StorageError(
          `Others have been reading or writing the tables without a pause for over ${HELD_UP_S} s, perhaps a backup. Nothing was changed; let them end, or stop them, and restore again.`,
        );
    }
    await sleep(RETRY_MS);
  }
}

async function listAllTables(transaction: RawTransaction): Promise<string[]> {
  const rows = await transaction<{ name: string }[]>`
    select relname as name from pg_class
    where relnamespace = ${STAGE}::regnamespace and relkind in ('r', 'p')`;
  return rows.map(({ name }) => name);
}

/**
 * What the migrations made beside tables: views, which depend on tables, or other things, on which tables depend.
 * Indexes, and the sequences of columns, go with their tables.
 */
async function listOther(
  transaction: RawTransaction,
  which: 'v' | 'o',
): Promise<{ kind: string; name: string }[]> {
  return transaction<{ kind: string; name: string }[]>`
    select case relkind when 'v' then 'view' when 'm' then 'materialized view' else 'sequence' end as kind,
      quote_ident(relname) as name
    from pg_class c
    where relnamespace = ${STAGE}::regnamespace
      and (${which} = 'v' and relkind in ('v', 'm') or ${which} = 'o' and relkind = 'S' and not exists (
        select from pg_depend d where d.objid = c.oid and d.classid = 'pg_class'::regclass and d.deptype in ('a', 'i')))
    union all
    select case prokind when 'p' then 'procedure' else 'function' end,
      format('%I(%s)', proname, pg_get_function_identity_arguments(oid))
    from pg_proc where ${which} = 'o' and pronamespace = ${STAGE}::regnamespace and prokind in ('f', 'p')
    union all
    select case typtype when 'd' then 'domain' else 'type' end, quote_ident(typname)
    from pg_type where ${which} = 'o' and typnamespace = ${STAGE}::regnamespace and typtype in ('d', 'e')`;
}
