import { randomBytes } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { installation } from '#db/schema/access.ts';
import type { Context } from '#server/services/context.ts';

const NAME = 'cookie-secret';

/** The secret that cookies are signed with: made up once, then the same for every process on this database. */
export async function readSecret({ db }: Pick<Context, 'db'>): Promise<string> {
  const value = randomBytes(32).toString('base64url');
  await db.insert(installation).values({ name: NAME, value }).onConflictDoNothing();
  const [found] = await db.select().from(installation).where(eq(installation.name, NAME));
  if (found === undefined) throw new Error('the secret that was just stored must be there');
  return found.value;
}
