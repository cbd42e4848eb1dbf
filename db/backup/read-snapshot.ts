import type { Readable } from 'node:stream';
import type { RawClient } from '#db/client.ts';
import type { RawTransaction } from '#db/connection.ts';
import { lockSchema } from '#db/migrate.ts';
import { readLevel, readMigrations } from '#db/migrations-known.ts';
import { StorageError } from '#db/storage-error.ts';
import { listTables, type StoredTable } from './list-tables.ts';
import { quoteName } from './quote-name.ts';
import { runAlone, runTransaction } from './run-alone.ts';
import { readSequences, type StoredSequence } from './sequences.ts';

/** All of the storage as it was at one moment, while others go on writing. */
export interface Snapshot {
  takenAt: Date;
  /** the last migration that the database has run; its name where this program knows it */
  level: { when: number; name: string };
  /** of the server, such as 18.4 */
  postgresql: string;
  tables: StoredTable[];
  sequences: StoredSequence[];
  /** rows in COPY's text format, every one ended by a line feed */
  readRows(table: StoredTable): Promise<AsyncIterable<Buffer>>;
}

const SCHEMA = 'public';
const ATTEMPTS = 5;
/** As PostgreSQL writes them by itself; said, so that a database with other customs gives the same text. */
const TEXT_FORMAT = `
  set datestyle = 'ISO, YMD'; set intervalstyle = 'postgres'; set bytea_output = 'hex';
  set extra_float_digits = 1; set client_encoding = 'UTF8'; set timezone = 'UTC';
  set idle_in_transaction_session_timeout = 0; set statement_timeout = 0`;

/**
 * Opens one snapshot over all tables and gives it to `work`. Its tables are held so that nobody can drop or rebuild
 * one; whoever wants to waits or gives up. Retention may drop a month between list and hold: then all begins again.
 */
export async function readSnapshot<T>(url: string, work: (snapshot: Snapshot) => Promise<T>): Promise<T> {
  return runAlone(url, async (client) => {
    await client.unsafe(TEXT_FORMAT);
    for (let attempt = 1; ; attempt += 1) {
      await lockSchema(client, 'shared');
      const snapshot = await tryRead(client, attempt === ATTEMPTS, work);
      if (snapshot !== TABLE_GONE) return snapshot;
    }
  });
}

const TABLE_GONE = Symbol('a table was dropped meanwhile');

async function tryRead<T>(
  client: RawClient,
  last: boolean,
  work: (snapshot: Snapshot) => Promise<T>,
): Promise<T | typeof TABLE_GONE> {
  const begun = 'isolation level repeatable read, read only';
  let isGone = false;
  const done = await runTransaction(client, begun, async (transaction) => {
    const tables = await listTables(transaction, SCHEMA);
    const level = await readLevel(transaction);
    if (level === null || tables.length === 0)
      throw new StorageError('This database holds nothing of Slipdrift: there is nothing to back up.');
    isGone = !(await hold(transaction, tables, last));
    if (isGone) return TABLE_GONE;
    // Held tables cannot be changed: who waits for the schema, such as a start, need not wait any longer.
    await transaction`select pg_advisory_unlock_all()`;
    return work(await describe(transaction, level, tables));
  });
  return done;
}

async function describe(transaction: RawTransaction, when: number, tables: StoredTable[]): Promise<Snapshot> {
  const [row] = await transaction`select now() as at, current_setting('server_version') as version`;
  return {
    takenAt: row?.at as Date,
    level: { when, name: readMigrations().find((known) => known.when === when)?.name ?? String(when) },
    postgresql: String(row?.version),
    tables,
    sequences: await readSequences(transaction, SCHEMA),
    readRows: async ({ name, columns }) => {
      const list = columns.map(quoteName).join(', ');
      const rows: Readable = await transaction
        .unsafe(`copy ${SCHEMA}.${quoteName(name)} (${list}) to stdout`)
        .readable();
      rows.once('close', () => freeSocket(rows));
      return rows;
    },
  };
}

/**
 * The driver reads on only when its stream asks for more: it would stay deaf where the end comes together with the last
 * rows, or where nobody wants the rest.
 */
function freeSocket(rows: Readable): void {
  rows.push = () => true;
  rows._read(0);
}

/** False where one of them is gone. */
async function hold(
  transaction: RawTransaction,
  tables: readonly StoredTable[],
  last: boolean,
): Promise<boolean> {
  const names = tables.map(({ name }) => `only ${SCHEMA}.${quoteName(name)}`);
  const lock = `lock table ${names.join(', ')} in access share mode`;
  try {
    await transaction.savepoint((inner) => inner.unsafe(lock));
    return true;
  } catch (error) {
    if (last || (error as { code?: string }).code !== '42P01') throw error;
    return false;
  }
}
