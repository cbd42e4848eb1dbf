import { randomUUID } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { installation } from '#db/schema/access.ts';
import type { Context } from '#server/services/context.ts';

const NAME = 'calendar-id';

/**
 * What tells the events of this installation from those of any other: made up once. RFC 7986, 5.3: random, and nothing of
 * the machine or the person in it.
 */
export async function readCalendarId({ db }: Pick<Context, 'db'>): Promise<string> {
  const find = () =>
    db.select({ value: installation.value }).from(installation).where(eq(installation.name, NAME));
  const [known] = await find();
  if (known !== undefined) return known.value;
  await db.insert(installation).values({ name: NAME, value: randomUUID() }).onConflictDoNothing();
  const [made] = await find();
  if (made === undefined) throw new Error('the id that was just stored must be there');
  return made.value;
}
