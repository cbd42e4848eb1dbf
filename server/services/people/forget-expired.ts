import { lt } from 'drizzle-orm';
import { oneTimeTokens, sessions, signInAttempts } from '#db/schema/access.ts';
import type { Context } from '#server/services/context.ts';

const DAY_MS = 86_400_000;

/**
 * Takes out what lets nobody in any more: ended sessions, one-time addresses, wrong passwords of long ago. Answers how
 * many rows of each table.
 */
export async function forgetExpired({ db }: Pick<Context, 'db'>): Promise<Record<string, number>> {
  const dayAgo = new Date(Date.now() - DAY_MS);
  const { count: ended } = await db.delete(sessions).where(lt(sessions.expiresAt, dayAgo));
  const { count: unused } = await db.delete(oneTimeTokens).where(lt(oneTimeTokens.expiresAt, dayAgo));
  const { count: wrong } = await db.delete(signInAttempts).where(lt(signInAttempts.at, dayAgo));
  return { sessions: ended, one_time_tokens: unused, sign_in_attempts: wrong };
}
