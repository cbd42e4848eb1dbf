import { countRows, learnTables, listOuterTables } from '#db/backup/learn-tables.ts';
import { noteRestore } from '#db/backup/note-restore.ts';
import { runAlone, runTransaction } from '#db/backup/run-alone.ts';
import { setSequence } from '#db/backup/sequences.ts';
import { compareTables, loadTable, makeStage, STAGE } from '#db/backup/stage.ts';
import { holdOldTables, takePlace } from '#db/backup/take-place.ts';
import type { RawTransaction } from '#db/connection.ts';
import { lockSchema, refuseNewerSchema } from '#db/migrate.ts';
import { type Migration, noteMigrations, readMigrations, runMigrations } from '#db/migrations-known.ts';
import { BackupError } from './backup-error.ts';
import { createTextCounter } from './count-text.ts';
import { type BackedUpTable, type Manifest, readPartPath } from './manifest.ts';
import { damaged, type Entry, type ReadOptions, readEntries } from './read-entries.ts';

export interface RestoreOptions extends ReadOptions {
  /** what is there may go */
  replace: boolean;
}

export interface Restored {
  /** migrations that were run on what the backup brought */
  migrated: string[];
  /** tables of the backup that no Slipdrift has made, and that were left out */
  leftOut: string[];
}

/**
 * Puts a backup that was checked in the place of what the database holds, in one transaction: it is there whole, or
 * nothing was changed. Who works with the database meanwhile finds the old data until the last moment.
 */
export async function restoreStorage(
  url: string,
  path: string,
  manifest: Manifest,
  { replace, ...reading }: RestoreOptions,
): Promise<Restored> {
  const steps = migrationsFor(path, manifest);
  return runAlone(url, async (client) => {
    await client.unsafe('set statement_timeout = 0; set idle_in_transaction_session_timeout = 0');
    await lockSchema(client);
    await refuseNewerSchema(client);
    return runTransaction(client, '', async (transaction) => {
      await transaction.unsafe('set local lock_timeout = 0');
      const known = await learnTables(transaction, [...steps.before, ...steps.after]);
      if (!replace) await refuseData(transaction, known.names, known.seeded);
      const finish = await makeStage(transaction, steps.before);
      const { missing, unknown } = await compareTables(transaction, manifest.tables);
      if (missing.length > 0) throw damaged(path, `it lacks ${missing.join(', ')}`);
      await loadTables(transaction, path, manifest, new Set(unknown), reading);
      for (const { name, last_value, is_called } of manifest.sequences)
        if (await sequenceExists(transaction, name))
          await setSequence(transaction, STAGE, { name, lastValue: last_value, isCalled: is_called });
      await finish();
      await runMigrations(transaction, steps.after, STAGE);
      await analyse(transaction);
      const old = await holdOldTables(transaction, known.names);
      if (!replace) await refuseData(transaction, known.names, known.seeded);
      await takePlace(transaction, old);
      await noteMigrations(transaction, [...steps.before, ...steps.after]);
      const { program, taken_at } = manifest;
      await noteRestore(transaction, { program, taken_at, rows: sumRows(manifest) });
      return { migrated: steps.after.map(({ name }) => name), leftOut: unknown };
    });
  });
}

const sumRows = ({ tables }: Manifest): number => tables.reduce((sum, { rows }) => sum + rows, 0);

/** What to run before the rows come, and what after; declines a backup of a schema that this program does not know. */
export function migrationsFor(
  path: string,
  { migration, program }: Pick<Manifest, 'migration' | 'program'>,
): { before: Migration[]; after: Migration[] } {
  const all = readMigrations();
  const at = all.findIndex(({ when }) => when === migration.at);
  if (at >= 0) return { before: all.slice(0, at + 1), after: all.slice(at + 1) };
  const isNewer = all.every(({ when }) => when < migration.at);
  throw new BackupError(
    isNewer
      ? `${path} was made by a newer Slipdrift (${program}, with ${migration.name}). Nothing was changed; restore it with that version or a later one.`
      : `${path} is of a schema that this Slipdrift does not know (${migration.name}). Nothing was changed.`,
  );
}

/** The first start of a server fills it by itself, with the secret of its cookies. */
const MADE_BY_START = 'installation';

async function refuseData(
  transaction: RawTransaction,
  known: ReadonlySet<string>,
  seeded: ReadonlyMap<string, number>,
): Promise<void> {
  const live = (await listOuterTables(transaction, 'public')).filter(
    (name) => known.has(name) && name !== MADE_BY_START,
  );
  const counts = await countRows(transaction, 'public', live);
  const holding = [...counts].filter(([name, rows]) => rows > (seeded.get(name) ?? 0));
  if (holding.length === 0) return;
  const shown = holding.slice(0, 4).map(([name, rows]) => `${name}: ${rows < 1000 ? rows : '1,000 or more'}`);
  throw new BackupError(
    `The database holds data (rows in ${shown.join(', ')}${holding.length > 4 ? ' and others' : ''}). Nothing was changed; back it up, and restore with --replace to put the backup in its place.`,
  );
}

/** Loads table by table as the file has them; those without a row are made too, where they are partitions. */
async function loadTables(
  transaction: RawTransaction,
  path: string,
  { tables }: Manifest,
  leaveOut: ReadonlySet<string>,
  reading: ReadOptions,
): Promise<void> {
  const pieces = readEntries(path, reading)[Symbol.asyncIterator]();
  try {
    let next = await nextPart(pieces);
    for (const table of tables) {
      const counter = createTextCounter();
      const rows = async function* () {
        for (; next !== null && next.table === table.name; next = await nextPart(pieces)) {
          counter.add(next.content);
          yield next.content;
        }
      };
      if (leaveOut.has(table.name)) for await (const _ of rows());
      else await loadTable(transaction, table, rows());
      if (counter.finish().sha256 !== table.sha256) throw changedMeanwhile(path, table);
    }
  } finally {
    await pieces.return?.(undefined);
  }
}

async function nextPart(pieces: AsyncIterator<Entry>): Promise<{ table: string; content: Buffer } | null> {
  for (;;) {
    const { done, value } = await pieces.next();
    if (done === true) return null;
    const place = readPartPath(value.path);
    if (place !== null) return { table: place.table, content: value.content };
  }
}

const changedMeanwhile = (path: string, { name }: BackedUpTable) =>
  damaged(path, `the rows of ${name} changed while they were read`);

async function sequenceExists(transaction: RawTransaction, name: string): Promise<boolean> {
  const [row] = await transaction`
    select count(*) as n from pg_class
    where relname = ${name} and relkind = 'S' and relnamespace = ${STAGE}::regnamespace`;
  return row?.n === 1;
}

/** Without this the first questions would be planned as for empty tables. */
async function analyse(transaction: RawTransaction): Promise<void> {
  for (const name of await listOuterTables(transaction, STAGE)) await transaction.unsafe(`analyze "${name}"`);
}
