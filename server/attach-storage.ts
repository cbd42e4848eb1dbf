import type { Logger } from 'pino';
import { attachEmbedded } from '#db/embedded/attach-embedded.ts';
import { startEmbedded } from '#db/embedded/start-embedded.ts';
import { reportPlace } from './open-storage.ts';
import type { Settings } from './settings.ts';

export interface AttachedStorage {
  /** may hold a password */
  url: string;
  close(): Promise<void>;
}

/**
 * The database of `DATABASE_URL`, or our own PostgreSQL: the one that a Slipdrift runs at the moment, else one started
 * for the time being. Its schema stays as it is.
 */
export async function attachStorage(settings: Settings, log: Logger): Promise<AttachedStorage> {
  const url = settings.databaseUrl ?? (await attachEmbedded(settings.dataFolder));
  if (url !== null) return { url, async close() {} };
  const server = await startEmbedded({ folder: settings.dataFolder });
  reportPlace(server, settings.dataFolder, log);
  return { url: server.url, close: () => server.stop() };
}
