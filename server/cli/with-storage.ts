import { embeddedExists } from '#db/embedded/attach-embedded.ts';
import { attachStorage } from '#server/attach-storage.ts';
import { createErrorLog } from '#server/create-log.ts';
import { explainConnection } from '#server/open-storage.ts';
import { readSettings, type Settings } from '#server/settings.ts';
import { CommandError } from './command-error.ts';

/** Settings as `serve` has them; who may reach the server does not matter here. */
export const readOwnSettings = (): Settings => readSettings({ ...process.env, HOST: '127.0.0.1' });

/** Declines where a command would begin a storage of its own beside the one that is meant. */
export function requireStorage({ databaseUrl, dataFolder }: Settings): void {
  if (databaseUrl !== null || embeddedExists(dataFolder)) return;
  throw new CommandError(
    `There is no storage in ${dataFolder}. Name its folder in SLIPDRIFT_DATA, or its server in DATABASE_URL; the first start of slipdrift serve makes one.`,
  );
}

/** Works on the storage, whether a Slipdrift runs or not. */
export async function withStorage<T>(settings: Settings, work: (url: string) => Promise<T>): Promise<T> {
  const storage = await attachStorage(settings, createErrorLog('warn'));
  try {
    return await work(storage.url);
  } catch (error) {
    throw explain(error, storage.url);
  } finally {
    await storage.close();
  }
}

function explain(error: unknown, url: string): unknown {
  const { code } = error as { code?: string };
  if (/^(CONNECTION_(CLOSED|ENDED|DESTROYED)|ECONNRESET|EPIPE|57P0[1-3])$/.test(code ?? ''))
    return new CommandError(
      `The connection to the database was lost (${code}). Nothing was kept; do it again when the database answers.`,
    );
  if (code === '53100')
    return new CommandError(
      'The disk of the database is full. Nothing was changed; a restore needs room for old and new data at once.',
    );
  return explainConnection(error, url);
}
