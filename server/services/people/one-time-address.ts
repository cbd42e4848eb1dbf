import { randomBytes, randomUUID } from 'node:crypto';
import { and, count, eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { oneTimeTokens, people, sessions, signInAttempts, signInWays } from '#db/schema/access.ts';
import type { OneTimeAddress } from '#server/contract/people.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { inSetUp } from '#server/services/fleet/set-up.ts';
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
  return (await hasPeople(ctx.db)) ? null : offer(library, OF_FIRST, FIRST, FIRST_HOURS);
}

/** A token with which a person sets a password; earlier ones of the person stop working, also where several are made at once. */
export async function offerPassword(
  ctx: Context,
  library: SignInLibrary,
  person: string,
): Promise<OfferedToken> {
  // Of nobody until the earlier ones are gone: so one is left, the last.
  const offered = await offer(library, OF_PERSON, `of nobody: ${randomUUID()}`, PERSON_HOURS);
  await inSetUp(ctx.db, async (transaction) => {
    await transaction.delete(oneTimeTokens).where(eq(oneTimeTokens.value, person));
    await transaction.update(oneTimeTokens).set({ value: person }).where(eq(oneTimeTokens.id, offered.id));
  });
  return offered;
}

async function hasPeople(db: Database): Promise<boolean> {
  const [found] = await db.select({ n: count() }).from(people);
  return (found?.n ?? 0) > 0;
}

/** By the machine's clock, as the library has no other. */
async function offer(
  library: SignInLibrary,
  kind: string,
  value: string,
  hours: number,
): Promise<OfferedToken & { id: string }> {
  const token = randomBytes(24).toString('base64url');
  const expiresAt = new Date(Date.now() + hours * HOUR_MS);
  const { internalAdapter } = await library.$context;
  const { id } = await internalAdapter.createVerificationValue({
    identifier: kind + token,
    value,
    expiresAt,
  });
  return { token, expiresAt, id };
}

/** What a one-time address is for. */
export async function readOneTimeAddress(
  ctx: Context,
  library: SignInLibrary,
  token: string,
): Promise<OneTimeAddress> {
  return (await findOffer(ctx.db, library, token)).address;
}

/** `row` is the token's own; `person` is null for the first account. */
async function findOffer(db: Database, library: SignInLibrary, token: string) {
  const { internalAdapter } = await library.$context;
  const first = await internalAdapter.findVerificationValue(OF_FIRST + token);
  const found = first ?? (await internalAdapter.findVerificationValue(OF_PERSON + token));
  if (found === null || found.expiresAt <= new Date()) throw usedUp();
  const expires_at = found.expiresAt.toISOString();
  if (first !== null) {
    if (await hasPeople(db)) throw usedUp();
    const address: OneTimeAddress = { purpose: 'first_admin', name: null, email: null, expires_at };
    return { row: found.id, person: null, address };
  }
  const [person] = await db.select().from(people).where(eq(people.id, found.value));
  if (person === undefined || person.closed) throw usedUp();
  const ways = await db.select().from(signInWays).where(eq(signInWays.userId, person.id));
  const address: OneTimeAddress = {
    purpose: ways.length === 0 ? 'invitation' : 'reset',
    name: person.name,
    email: person.email,
    expires_at,
  };
  return { row: found.id, person, address };
}

interface Given {
  token: string;
  password: string;
  name?: string | undefined;
  email?: string | undefined;
}

/**
 * Uses a one-time address up: the password is set, all sessions of before end, all other addresses of the person too.
 * All of it happens, or nothing and the address still works. Answers the person's e-mail address.
 */
export async function useOneTimeAddress(
  ctx: Context,
  library: SignInLibrary,
  given: Given,
): Promise<{ email: string }> {
  const { row, person, address } = await findOffer(ctx.db, library, given.token);
  const { password: passwords } = await library.$context;
  if (person === null) return makeFirstAdmin(ctx, given, () => passwords.hash(given.password));
  const hash = await passwords.hash(given.password);
  const at = ctx.now();
  await inSetUp(ctx.db, async (transaction) => {
    const used = await transaction
      .delete(oneTimeTokens)
      .where(eq(oneTimeTokens.value, person.id))
      .returning({ id: oneTimeTokens.id });
    if (!used.some(({ id }) => id === row)) throw usedUp();
    const name = address.purpose === 'invitation' ? (given.name ?? person.name) : person.name;
    await transaction.update(people).set({ name, updatedAt: at }).where(eq(people.id, person.id));
    await setPassword(transaction, person.id, hash, at);
    await transaction.delete(sessions).where(eq(sessions.userId, person.id));
    await transaction.delete(signInAttempts).where(eq(signInAttempts.email, person.email));
    await noteChanges(transaction, { now: ctx.now, actor: { ...ctx.actor, ...named({ ...person, name }) } }, [
      { action: 'password_set', subject: 'person', subjectId: person.id },
    ]);
  });
  return { email: person.email };
}

async function makeFirstAdmin(
  ctx: Context,
  { name, email }: Given,
  hashPassword: () => Promise<string>,
): Promise<{ email: string }> {
  if (name === undefined || email === undefined)
    throw new SlipdriftError('invalid_request', 'The first account needs a name and an e-mail address.', {
      errors: [
        ...(name === undefined ? [{ field: 'name', message: 'is missing' }] : []),
        ...(email === undefined ? [{ field: 'email', message: 'is missing' }] : []),
      ],
    });
  const hash = await hashPassword();
  await inSetUp(ctx.db, async (transaction) => {
    if (await hasPeople(transaction)) throw usedUp();
    await addAccount({ ...ctx, db: transaction }, { name, email, role: 'admin', hash });
    await transaction.delete(oneTimeTokens).where(eq(oneTimeTokens.value, FIRST));
  });
  return { email };
}

const PASSWORD = 'credential';

async function setPassword(db: Database, person: string, hash: string, at: Date): Promise<void> {
  const isPassword = and(eq(signInWays.userId, person), eq(signInWays.providerId, PASSWORD));
  const set = await db
    .update(signInWays)
    .set({ password: hash, updatedAt: at })
    .where(isPassword)
    .returning();
  if (set.length > 0) return;
  await db.insert(signInWays).values({
    id: randomUUID(),
    userId: person,
    accountId: person,
    providerId: PASSWORD,
    password: hash,
    createdAt: at,
    updatedAt: at,
  });
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
    await setPassword(transaction, id, hash, at);
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
