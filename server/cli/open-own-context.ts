import { StorageError } from '#db/storage-error.ts';
import { createErrorLog } from '#server/create-log.ts';
import { openStorage } from '#server/open-storage.ts';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { CommandError } from './command-error.ts';
import { readOwnSettings } from './with-storage.ts';

export interface OwnContext {
  context: Context;
  close(): Promise<void>;
}

/** The storage itself, for a command that a running server would take with --to: `act` is what it is asked to do. */
export async function openOwnContext(act: string): Promise<OwnContext> {
  const settings = readOwnSettings();
  const log = createErrorLog('warn');
  const storage = await openStorage(settings, log).catch((error: unknown) => {
    if (error instanceof StorageError && error.message.includes('in use by another Slipdrift'))
      throw new CommandError(
        `A Slipdrift that runs is using this storage: ${act} through it with --to http://127.0.0.1:${settings.port} (its address), or stop it. (${error.message})`,
      );
    throw error;
  });
  return {
    context: { db: storage.db, now: () => new Date(), log, actor: programActor('command line') },
    close: () => storage.close(),
  };
}
