import { and, desc, eq, gt } from 'drizzle-orm';
import { people, sessions, signInAttempts } from '#db/schema/access.ts';
import type { OwnSession } from '#server/contract/people.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { askLibrary, isRefusal } from './ask-library.ts';
import { countAttempt } from './sign-in.ts';
import { libraryHeaders, type SignInLibrary } from './sign-in-library.ts';

/** Ends this session and answers the cookies that take it out of the browser. */
export async function signOut({ db }: Context, library: SignInLibrary, headers: Headers): Promise<string[]> {
  const { headers: answered } = await askLibrary(db, () =>
    library.api.signOut({ headers: libraryHeaders(headers, null), returnHeaders: true }),
  );
  return answered.getSetCookie();
}

/** Where a person is signed in, the newest use first. */
export async function listOwnSessions(ctx: Context, currentId: string | null): Promise<OwnSession[]> {
  const rows = await ctx.db
    .select()
    .from(sessions)
    .where(and(eq(sessions.userId, ownId(ctx)), gt(sessions.expiresAt, new Date())))
    .orderBy(desc(sessions.updatedAt));
  return rows.map((row) => ({
    id: row.id,
    began_at: row.createdAt.toISOString(),
    seen_at: row.updatedAt.toISOString(),
    ends_at: row.expiresAt.toISOString(),
    from: row.ipAddress === '' ? null : row.ipAddress,
    device: row.userAgent === '' ? null : row.userAgent,
    current: row.id === currentId,
  }));
}

export async function endOwnSession(ctx: Context, id: string): Promise<void> {
  const ended = await ctx.db
    .delete(sessions)
    .where(and(eq(sessions.id, id), eq(sessions.userId, ownId(ctx))))
    .returning();
  if (ended.length === 0) throw new SlipdriftError('not_found', 'You are not signed in there any more.');
}

/** Signs somebody out wherever they are signed in. */
export async function endAllSessions(ctx: Context, person: string): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    await transaction.delete(sessions).where(eq(sessions.userId, person));
    await noteChanges(transaction, ctx, [
      { action: 'signed_out_everywhere', subject: 'person', subjectId: person },
    ]);
  });
}

/** Sets another password; every other session of the person ends. Answers the cookies of the one that goes on. */
export async function changePassword(
  ctx: Context,
  library: SignInLibrary,
  { current, password }: { current: string; password: string },
  headers: Headers,
): Promise<string[]> {
  const [person] = await ctx.db
    .select({ email: people.email })
    .from(people)
    .where(eq(people.id, ownId(ctx)));
  if (person === undefined) throw new SlipdriftError('unauthorized', 'Your session has ended.');
  await countAttempt(ctx, person.email);
  try {
    const { headers: answered } = await askLibrary(ctx.db, () =>
      library.api.changePassword({
        body: { currentPassword: current, newPassword: password, revokeOtherSessions: true },
        headers: libraryHeaders(headers, ctx.actor.from),
        returnHeaders: true,
      }),
    );
    await ctx.db.delete(signInAttempts).where(eq(signInAttempts.email, person.email));
    await noteChanges(ctx.db, ctx, [{ action: 'password_set', subject: 'person', subjectId: ownId(ctx) }]);
    return answered.getSetCookie();
  } catch (error) {
    if (!isRefusal(error)) throw error;
    throw new SlipdriftError(
      'invalid_request',
      'The password was not changed: the present one is not right.',
      {
        errors: [{ field: 'current', message: 'is not your present password' }],
      },
    );
  }
}

/** The guard lets only people through to these calls. */
export function ownId({ actor }: Context): string {
  if (actor.kind !== 'person' || actor.id === null)
    throw new SlipdriftError('not_allowed', 'This is for people who are signed in, about themselves.');
  return actor.id;
}
