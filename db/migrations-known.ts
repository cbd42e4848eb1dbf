import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readMigrationFiles } from 'drizzle-orm/migrator';
import type { Connection } from './connection.ts';

export const migrationsFolder = fileURLToPath(new URL('./migrations', import.meta.url));

/** One step of the schema. `when` is what the database notes of it, and what tells the order. */
export interface Migration {
  name: string;
  when: number;
  hash: string;
  statements: string[];
}

/** The steps that this program brings, oldest first. */
export function readMigrations(): Migration[] {
  const journal = JSON.parse(readFileSync(`${migrationsFolder}/meta/_journal.json`, 'utf8')) as {
    entries: { tag: string }[];
  };
  return readMigrationFiles({ migrationsFolder }).map((file, i) => ({
    name: journal.entries[i]?.tag ?? String(file.folderMillis),
    when: file.folderMillis,
    hash: file.hash,
    statements: file.sql,
  }));
}

/** The last step that the database has run; null where it has run none. */
export async function readLevel(client: Connection): Promise<number | null> {
  const [table] = await client`select to_regclass('drizzle.__drizzle_migrations') is not null as exists`;
  if (table?.exists !== true) return null;
  const [last] = await client`select max(created_at) as at from drizzle.__drizzle_migrations`;
  return typeof last?.at === 'number' ? last.at : null;
}

/**
 * Runs steps in the schema `public`, or in another: there what drizzle wrote for `public` is written for that one.
 * Within a transaction, whose search path it sets. Notes nothing.
 */
export async function runMigrations(
  transaction: Connection,
  migrations: readonly Migration[],
  schema = 'public',
): Promise<void> {
  await transaction.unsafe(`set local search_path to ${schema}`);
  for (const { statements } of migrations)
    for (const statement of statements)
      await transaction.unsafe(schema === 'public' ? statement : moveStatement(statement, schema));
}

const DOLLAR_QUOTED = /(\$\w*\$[\s\S]*?\$\w*\$)/;

/** A function's body runs later, when its tables are in `public`; all else runs now. */
function moveStatement(statement: string, schema: string): string {
  const move = (text: string) => text.replaceAll(/"public"\.|\bpublic\./g, `${schema}.`);
  if (!/create\s+(or\s+replace\s+)?(function|procedure)\b/i.test(statement)) return move(statement);
  return statement
    .split(DOLLAR_QUOTED)
    .map((part, i) => (i % 2 === 0 ? move(part) : part))
    .join('');
}

/** Notes these steps, and no others, as run, as drizzle does it. */
export async function noteMigrations(
  transaction: Connection,
  migrations: readonly Migration[],
): Promise<void> {
  await transaction.unsafe(`
    create schema if not exists drizzle;
    create table if not exists drizzle.__drizzle_migrations
      (id serial primary key, hash text not null, created_at bigint);
    delete from drizzle.__drizzle_migrations`);
  for (const { hash, when } of migrations)
    await transaction`insert into drizzle.__drizzle_migrations (hash, created_at) values (${hash}, ${when})`;
}
