import { eq } from 'drizzle-orm';
import { installation } from '#db/schema/access.ts';
import type { Context } from '#server/services/context.ts';

/** A value of this installation: made up once, then the same for every process on this database. */
export async function readMadeOnce(
  { db }: Pick<Context, 'db'>,
  name: string,
  make: () => string,
): Promise<string> {
  const find = () =>
    db.select({ value: installation.value }).from(installation).where(eq(installation.name, name));
  const [known] = await find();
  if (known !== undefined) return known.value;
  await db.insert(installation).values({ name, value: make() }).onConflictDoNothing();
  const [made] = await find();
  if (made === undefined) throw new Error(`the ${name} that was just stored must be there`);
  return made.value;
}
