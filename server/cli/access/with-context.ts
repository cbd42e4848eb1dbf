import { openDatabase } from '#db/client.ts';
import { migrateDatabase } from '#db/migrate.ts';
import { readOwnSettings, requireStorage, withStorage } from '#server/cli/with-storage.ts';
import { createErrorLog } from '#server/create-log.ts';
import { readSecret } from '#server/services/access/read-secret.ts';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { createSignInLibrary, type SignInLibrary } from '#server/services/people/sign-in-library.ts';

export interface CommandContext {
  context: Context;
  library: SignInLibrary;
  /** where people find the server, as far as the settings of this command tell */
  origin: string;
  /** false where only PORT tells it, which the server may have been given another of */
  originIsSet: boolean;
}

/** Works on the storage as whoever runs the command line, whether a Slipdrift runs on it or not. */
export async function withContext<T>(work: (command: CommandContext) => Promise<T>): Promise<T> {
  const settings = readOwnSettings();
  requireStorage(settings);
  const { publicUrl, port } = settings;
  const log = createErrorLog('warn');
  return withStorage(settings, async (url) => {
    await migrateDatabase(url);
    const { db, close } = openDatabase(url, { connections: 1 });
    try {
      const context = { db, now: () => new Date(), log, actor: programActor('command line') };
      const secret = await readSecret(context);
      const library = await createSignInLibrary({ db, log, secret, publicUrl, company: null });
      const origin = publicUrl ?? `http://127.0.0.1:${port}`;
      return await work({ context, library, origin, originIsSet: publicUrl !== null });
    } finally {
      await close();
    }
  });
}
