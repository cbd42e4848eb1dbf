import { eq, sql } from 'drizzle-orm';
import { people, signInAttempts } from '#db/schema/access.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { askLibrary, isRefusal } from './ask-library.ts';
import { toActor } from './find-person.ts';
import { libraryHeaders, type SignInLibrary } from './sign-in-library.ts';

const ATTEMPTS = 10;
export const LOCKED_MINUTES = 15;

/**
 * Signs in by password and answers the cookies. An attempt is counted before the password is looked at, so that many at
 * once have no more tries than one after the other; the tenth wrong one in a row locks the address out for a while,
 * whether it has an account or not.
 */
export async function signIn(
  ctx: Context,
  library: SignInLibrary,
  { email: given, password }: { email: string; password: string },
  headers: Headers,
): Promise<string[]> {
  const email = given.toLowerCase();
  await countAttempt(ctx, email);
  const cookies = await checkPassword(ctx, library, email, password, libraryHeaders(headers, ctx.actor.from));
  const [person] = await ctx.db.select().from(people).where(eq(people.email, email));
  if (cookies === null || person === undefined)
    throw new SlipdriftError(
      'unauthorized',
      'This e-mail address and password do not fit together. Ask an admin for a new one-time address where the password is lost.',
    );
  await ctx.db.delete(signInAttempts).where(eq(signInAttempts.email, email));
  await noteSignIn(ctx, person);
  return cookies;
}

/** Writes down a sign-in, by password or through the company. */
export async function noteSignIn(ctx: Context, person: typeof people.$inferSelect): Promise<void> {
  const { from, request } = ctx.actor;
  await ctx.db.transaction(async (transaction) => {
    await transaction.update(people).set({ signedInAt: ctx.now() }).where(eq(people.id, person.id));
    await noteChanges(transaction, { now: ctx.now, actor: { ...toActor(person), from, request } }, [
      { action: 'signed_in', subject: 'person', subjectId: person.id },
    ]);
  });
}

/** Counts an attempt at a password before it is looked at; refuses where there were too many wrong ones. */
export async function countAttempt(ctx: Context, email: string): Promise<void> {
  const at = ctx.now();
  const until = new Date(at.getTime() + LOCKED_MINUTES * 60_000);
  const isOver = sql`${signInAttempts.lockedUntil} <= ${at}`;
  const [attempt] = await ctx.db
    .insert(signInAttempts)
    .values({ email, failed: 1, at })
    .onConflictDoUpdate({
      target: signInAttempts.email,
      set: {
        at,
        failed: sql`case when ${isOver} then 1 else ${signInAttempts.failed} + 1 end`,
        lockedUntil: sql`case when ${isOver} then null
          when ${signInAttempts.lockedUntil} is null and ${signInAttempts.failed} >= ${ATTEMPTS} then ${until}
          else ${signInAttempts.lockedUntil} end`,
      },
    })
    .returning();
  const lockedUntil = attempt?.lockedUntil ?? null;
  if (lockedUntil === null) return;
  if (attempt?.failed === ATTEMPTS + 1) await noteLockOut(ctx, email, lockedUntil);
  throw new SlipdriftError(
    'too_many',
    `Too many wrong passwords for this address: it is locked for ${LOCKED_MINUTES} minutes. An admin can open it sooner.`,
    { retryAfterS: Math.max(1, Math.ceil((lockedUntil.getTime() - at.getTime()) / 1000)) },
  );
}

async function noteLockOut(ctx: Context, email: string, until: Date): Promise<void> {
  const [person] = await ctx.db.select({ id: people.id }).from(people).where(eq(people.email, email));
  if (person === undefined) return;
  await noteChanges(ctx.db, ctx, [
    {
      action: 'locked_out',
      subject: 'person',
      subjectId: person.id,
      after: { locked_until: until.toISOString() },
    },
  ]);
}

async function checkPassword(
  { db }: Context,
  library: SignInLibrary,
  email: string,
  password: string,
  headers: Headers,
): Promise<string[] | null> {
  try {
    const { headers: answered } = await askLibrary(db, () =>
      library.api.signInEmail({ body: { email, password }, headers, returnHeaders: true }),
    );
    return answered.getSetCookie();
  } catch (error) {
    if (isRefusal(error)) return null;
    throw error;
  }
}
