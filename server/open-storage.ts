import type { Logger } from 'pino';
import { type Database, openDatabase } from '#db/client.ts';
import { type EmbeddedServer, startEmbedded } from '#db/embedded/start-embedded.ts';
import { migrateDatabase } from '#db/migrate.ts';
import { StorageError } from '#db/storage-error.ts';
import type { Settings } from './settings.ts';

export interface Storage {
  db: Database;
  /** for a thread that opens connections of its own; may hold a password */
  url: string;
  /** Settles when our own PostgreSQL goes away by itself; never, where the server is another's. */
  lost: Promise<void>;
  close(): Promise<void>;
}

/** For queries that still run when all who asked are gone. */
const CLOSE_S = 1;

/** The database of `DATABASE_URL`, or a PostgreSQL of our own; its schema up to date. */
export async function openStorage(settings: Settings, log: Logger): Promise<Storage> {
  const { databaseUrl, dataFolder: folder, notebookPort } = settings;
  const server = databaseUrl === null ? await startEmbedded({ folder, notebookPort }) : null;
  if (server !== null) reportPlace(server, settings.dataFolder, log);
  const url = server?.url ?? settings.databaseUrl ?? '';
  try {
    await migrateDatabase(url);
  } catch (error) {
    await server?.stop();
    throw explainConnection(error, url);
  }
  const { db, close } = openDatabase(url);
  return {
    db,
    url,
    lost: server?.lost ?? new Promise(() => {}),
    async close() {
      await close(CLOSE_S);
      await server?.stop();
    },
  };
}

export function reportPlace(server: EmbeddedServer, asked: string, log: Logger): void {
  if (server.moved)
    log.warn(
      { folder: server.folder },
      `PostgreSQL does not run as root, and its account cannot enter ${asked}: the data are in ${server.folder}`,
    );
  else log.info({ folder: server.folder }, 'storage started');
}

/** Errors of a connection that a person can act on, without the password that the address may hold. */
export function explainConnection(error: unknown, url: string): unknown {
  const { code, message } = error as { code?: string; message?: string };
  const { host, pathname } = new URL(url);
  const where = `The database of DATABASE_URL (${host}${pathname})`;
  if (code === '28P01' || code === '28000')
    return new StorageError(`${where} declined the user or password.`);
  if (code === '3D000') return new StorageError(`${where} does not exist; create it and start again.`);
  if (code === '42501') return new StorageError(`${where} does not let this user make tables: ${message}.`);
  if (/^(ECONN|ENOTFOUND|EAI_|EHOST|ENETUN|CONNECT_TIMEOUT|ENOENT)/.test(code ?? ''))
    return new StorageError(`${where} cannot be reached (${code}). Start it, or correct DATABASE_URL.`);
  return error;
}
