import { lt } from 'drizzle-orm';
import { oneTimeTokens, sessions, signInAttempts } from '#db/schema/access.ts';
import type { Context } from '#server/services/context.ts';

const DAY_MS = 86_400_000;

/** Takes out what lets nobody in any more: ended sessions, one-time addresses, wrong passwords of long ago. */
export async function forgetExpired({ db }: Pick<Context, 'db'>): Promise<void> {
  const dayAgo = new Date(Date.now() - DAY_MS);
  await db.delete(sessions).where(lt(sessions.expiresAt, dayAgo));
  await db.delete(oneTimeTokens).where(lt(oneTimeTokens.expiresAt, dayAgo));
  await db.delete(signInAttempts).where(lt(signInAttempts.at, dayAgo));
}
