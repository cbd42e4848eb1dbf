import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { RawTransaction } from '#db/connection.ts';
import { type Migration, runMigrations } from '#db/migrations-known.ts';
import { StorageError } from '#db/storage-error.ts';
import { listOuterTables } from './learn-tables.ts';
import { listTables, type StoredTable } from './list-tables.ts';
import { quoteName } from './quote-name.ts';

/** Where a backup is built up, unseen by others, before it takes the place of what is there. */
export const STAGE = 'slipdrift_restore';

type Loaded = Pick<StoredTable, 'name' | 'columns' | 'partition'>;

const LITERAL = String.raw`(?:'[^'\\]*'|-?\d+|MINVALUE|MAXVALUE|NULL|true|false)`;
const LITERALS = String.raw`\(${LITERAL}(?:, ${LITERAL})*\)`;
/** What PostgreSQL says a partition holds: this much of a file becomes part of a statement. */
const BOUND = new RegExp(
  String.raw`^(?:DEFAULT|FOR VALUES (?:FROM ${LITERALS} TO ${LITERALS}|IN ${LITERALS}|WITH \(modulus \d+, remainder \d+\)))$`,
);

/**
 * Makes empty tables as they were at some level, ready to take rows in any order: without foreign keys, which are put
 * back by the function that is answered, checked in one go, and with no trigger at work.
 */
export async function makeStage(
  transaction: RawTransaction,
  migrations: readonly Migration[],
): Promise<() => Promise<void>> {
  await transaction.unsafe(`create schema ${STAGE}`);
  await runMigrations(transaction, migrations, STAGE);
  const enableTriggers = await disableTriggers(transaction);
  const putForeignKeysBack = await dropForeignKeys(transaction);
  const tables = await listOuterTables(transaction, STAGE);
  if (tables.length > 0) await transaction.unsafe(`truncate ${tables.map(quoteName).join(', ')}`);
  return async () => {
    await putForeignKeysBack();
    await enableTriggers();
  };
}

/** Tables that a backup of this level must have, and has not; and those that it has and nobody knows. */
export async function compareTables(
  transaction: RawTransaction,
  tables: readonly Loaded[],
): Promise<{ missing: string[]; unknown: string[] }> {
  const outer = new Set(await listOuterTables(transaction, STAGE));
  const plain = (await listTables(transaction, STAGE)).map(({ name }) => name);
  const brought = new Set(tables.map(({ name }) => name));
  return {
    missing: plain.filter((name) => !brought.has(name)),
    unknown: tables
      .filter(({ name, partition }) => !outer.has(partition?.of ?? name))
      .map(({ name }) => name),
  };
}

/**
 * Loads the rows of one table. A partition is attached afterwards: building its indexes in one go is faster, and
 * attaching checks that its rows belong there.
 */
export async function loadTable(
  transaction: RawTransaction,
  { name, columns, partition }: Loaded,
  rows: AsyncIterable<Buffer>,
): Promise<void> {
  if (partition !== null)
    await transaction.unsafe(
      `create table ${quoteName(name)} (like ${quoteName(partition.of)} including all excluding indexes)`,
    );
  const list = columns.map(quoteName).join(', ');
  const into = await transaction.unsafe(`copy ${quoteName(name)} (${list}) from stdin`).writable();
  await pipeline(Readable.from(rows, { highWaterMark: 1 }), into);
  if (partition === null) return;
  if (!BOUND.test(partition.bound))
    throw new StorageError(`The bounds of ${name} are none that this program can read.`);
  await transaction.unsafe(
    `alter table ${quoteName(partition.of)} attach partition ${quoteName(name)} ${partition.bound}`,
  );
}

async function dropForeignKeys(transaction: RawTransaction): Promise<() => Promise<void>> {
  const keys = await transaction<{ table: string; name: string; definition: string }[]>`
    select c.relname as table, k.conname as name, pg_get_constraintdef(k.oid) as definition
    from pg_constraint k join pg_class c on c.oid = k.conrelid
    where k.contype = 'f' and k.conparentid = 0 and c.relnamespace = ${STAGE}::regnamespace`;
  for (const { table, name } of keys)
    await transaction.unsafe(`alter table ${quoteName(table)} drop constraint ${quoteName(name)}`);
  return async () => {
    for (const { table, name, definition } of keys)
      await transaction.unsafe(
        `alter table ${quoteName(table)} add constraint ${quoteName(name)} ${definition}`,
      );
  };
}

/** Foreign keys, whose triggers are the system's own, are gone by other means: only the superuser may disable them. */
async function disableTriggers(transaction: RawTransaction): Promise<() => Promise<void>> {
  const triggers = await transaction<{ table: string; name: string; enabled: 'O' | 'A' | 'R' }[]>`
    select c.relname as table, t.tgname as name, t.tgenabled as enabled
    from pg_trigger t join pg_class c on c.oid = t.tgrelid
    where not t.tgisinternal and t.tgenabled <> 'D' and t.tgparentid = 0
      and c.relnamespace = ${STAGE}::regnamespace`;
  for (const { table, name } of triggers)
    await transaction.unsafe(`alter table ${quoteName(table)} disable trigger ${quoteName(name)}`);
  const words = { O: 'enable', A: 'enable always', R: 'enable replica' };
  return async () => {
    for (const { table, name, enabled } of triggers)
      await transaction.unsafe(
        `alter table ${quoteName(table)} ${words[enabled]} trigger ${quoteName(name)}`,
      );
  };
}
