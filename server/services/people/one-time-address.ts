import { randomBytes, randomUUID } from 'node:crypto';
import { count, eq } from 'drizzle-orm';
import { oneTimeTokens, people, signInAttempts, signInWays } from '#db/schema/access.ts';
import type { OneTimeAddress } from '#server/contract/people.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { askLibrary, isRefusal } from './ask-library.ts';
import { toActor } from './find-person.ts';
import type { SignInLibrary } from './sign-in-library.ts';

/** What the library calls the token that sets a password. */
const OF_PERSON = 'reset-password:';
const OF_FIRST = 'first-admin:';
const FIRST = 'first-admin';
const FIRST_HOURS = 24;
const PERSON_HOURS = 72;
const HOUR_MS = 3_600_000;

export interface OfferedToken {
  token: string;
  expiresAt: Date;
}

/** A token for the first account, where there is none yet; null where there is one. */
export async function offerFirstAccount(ctx: Context, library: SignInLibrary): Promise<OfferedToken | null> {
  const [found] = await ctx.db.select({ n: count() }).from(people);
  return (found?.n ?? 0) > 0 ? null : offer(library, OF_FIRST, FIRST, FIRST_HOURS);
}

/** A token with which a person sets a password; earlier ones of the person stop working. */
export async function offerPassword(
  ctx: Context,
  library: SignInLibrary,
  person: string,
): Promise<OfferedToken> {
  await ctx.db.delete(oneTimeTokens).where(eq(oneTimeTokens.value, person));
  return offer(library, OF_PERSON, person, PERSON_HOURS);
}

/** By the machine's clock, as the library has no other. */
async function offer(
  library: SignInLibrary,
  kind: string,
  value: string,
  hours: number,
): Promise<OfferedToken> {
  const token = randomBytes(24).toString('base64url');
  const expiresAt = new Date(Date.now() + hours * HOUR_MS);
  const { internalAdapter } = await library.$context;
  await internalAdapter.createVerificationValue({ identifier: kind + token, value, expiresAt });
  return { token, expiresAt };
}

/** What a one-time address is for. */
export async function readOneTimeAddress(
  ctx: Context,
  library: SignInLibrary,
  token: string,
): Promise<OneTimeAddress> {
  const { internalAdapter } = await library.$context;
  const first = await internalAdapter.findVerificationValue(OF_FIRST + token);
  const found = first ?? (await internalAdapter.findVerificationValue(OF_PERSON + token));
  if (found === null || found.expiresAt <= new Date()) throw usedUp();
  const expires_at = found.expiresAt.toISOString();
  if (first !== null) return { purpose: 'first_admin', name: null, email: null, expires_at };
  const [person] = await ctx.db.select().from(people).where(eq(people.id, found.value));
  if (person === undefined || person.closed) throw usedUp();
  const ways = await ctx.db.select().from(signInWays).where(eq(signInWays.userId, person.id));
  return {
    purpose: ways.length === 0 ? 'invitation' : 'reset',
    name: person.name,
    email: person.email,
    expires_at,
  };
}

interface Given {
  token: string;
  password: string;
  name?: string | undefined;
  email?: string | undefined;
}

/** Uses a one-time address up: the password is set, all sessions of before end. Answers the person's e-mail address. */
export async function useOneTimeAddress(
  ctx: Context,
  library: SignInLibrary,
  given: Given,
): Promise<{ email: string }> {
  const { purpose, email } = await readOneTimeAddress(ctx, library, given.token);
  if (purpose === 'first_admin') return makeFirstAdmin(ctx, library, given);
  try {
    await askLibrary(ctx.db, () =>
      library.api.resetPassword({ body: { newPassword: given.password, token: given.token } }),
    );
  } catch (error) {
    if (isRefusal(error)) throw usedUp();
    throw error;
  }
  const [person] = await ctx.db
    .update(people)
    .set(
      given.name === undefined || purpose !== 'invitation' ? { updatedAt: ctx.now() } : { name: given.name },
    )
    .where(eq(people.email, email ?? ''))
    .returning();
  if (person === undefined) throw usedUp();
  await ctx.db.delete(signInAttempts).where(eq(signInAttempts.email, person.email));
  await noteChanges(ctx.db, { now: ctx.now, actor: { ...ctx.actor, ...named(person) } }, [
    { action: 'password_set', subject: 'person', subjectId: person.id },
  ]);
  return { email: person.email };
}

async function makeFirstAdmin(
  ctx: Context,
  library: SignInLibrary,
  { token, password, name, email }: Given,
): Promise<{ email: string }> {
  if (name === undefined || email === undefined)
    throw new SlipdriftError('invalid_request', 'The first account needs a name and an e-mail address.', {
      errors: [
        ...(name === undefined ? [{ field: 'name', message: 'is missing' }] : []),
        ...(email === undefined ? [{ field: 'email', message: 'is missing' }] : []),
      ],
    });
  const { internalAdapter, password: passwords } = await library.$context;
  if ((await internalAdapter.consumeVerificationValue(OF_FIRST + token)) === null) throw usedUp();
  const hash = await passwords.hash(password);
  await addAccount(ctx, { name, email, role: 'admin', hash });
  await ctx.db.delete(oneTimeTokens).where(eq(oneTimeTokens.value, FIRST));
  return { email };
}

/** An account with a password from the start: the first admin's, and those of the demo. */
export async function addAccount(
  ctx: Context,
  {
    name,
    email,
    role,
    hash,
    depots = null,
  }: Pick<typeof people.$inferInsert, 'name' | 'email' | 'role' | 'depots'> & {
    hash: string;
  },
): Promise<void> {
  const id = randomUUID();
  const at = ctx.now();
  await ctx.db.transaction(async (transaction) => {
    await transaction
      .insert(people)
      .values({ id, name, email, role, depots, emailVerified: true, createdAt: at, updatedAt: at });
    await transaction.insert(signInWays).values({
      id: randomUUID(),
      userId: id,
      accountId: id,
      providerId: 'credential',
      password: hash,
      createdAt: at,
      updatedAt: at,
    });
    await noteChanges(
      transaction,
      { now: ctx.now, actor: { ...ctx.actor, ...named({ id, name, role, depots }) } },
      [{ action: 'created', subject: 'person', subjectId: id, after: { name, email, role, depots } }],
    );
  });
}

/** Whoever holds the address acts as the person whom it was made for. */
function named(person: Parameters<typeof toActor>[0]) {
  const { kind, id, name, role, right } = toActor(person);
  return { kind, id, name, role, right };
}

const usedUp = (): SlipdriftError =>
  new SlipdriftError(
    'not_found',
    'This address was used already, has run out, or was never given. Ask an admin for a new one.',
  );
