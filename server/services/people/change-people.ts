import { randomUUID } from 'node:crypto';
import { eq, inArray } from 'drizzle-orm';
import type { z } from 'zod';
import type { Database } from '#db/client.ts';
import { people, sessions, signInAttempts } from '#db/schema/access.ts';
import { depots as depotTable } from '#db/schema/fleet.ts';
import type { invitation, ListedPerson, OfferedAddress, personChange } from '#server/contract/people.ts';
import type { Role } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { changedFields, inSetUp } from '#server/services/fleet/set-up.ts';
import { hasOtherAdmin, listPeople } from './list-people.ts';
import { type OfferedToken, offerPassword } from './one-time-address.ts';
import { endAllSessions } from './own-sessions.ts';
import type { SignInLibrary } from './sign-in-library.ts';

/** Adds a person, who sets a password at a one-time address or signs in through the company. */
export async function invitePerson(
  ctx: Context,
  library: SignInLibrary,
  { name, email, role, depots }: z.output<typeof invitation>,
  origin: string,
): Promise<OfferedAddress> {
  const id = randomUUID();
  await inSetUp(ctx.db, async (transaction) => {
    refuseScopedAdmin(role, depots);
    await refuseUnknownDepots(transaction, depots);
    const [taken] = await transaction.select().from(people).where(eq(people.email, email));
    if (taken !== undefined)
      throw new SlipdriftError(
        'conflict',
        `${email} has an account already, as ${taken.name}. Nothing was changed.`,
        {
          errors: [{ field: 'email', message: 'has an account already' }],
        },
      );
    const at = ctx.now();
    // The admin vouches for the address: the company's provider may be believed about it.
    const row = { id, name, email, role, depots, emailVerified: true, createdAt: at, updatedAt: at };
    await transaction.insert(people).values(row);
    await noteChanges(transaction, ctx, [
      { action: 'invited', subject: 'person', subjectId: id, after: { name, email, role, depots } },
    ]);
  });
  return toOffered(ctx, id, await offerPassword(ctx, library, id), origin);
}

/** Another one-time address for a person: to set the first password, or a new one. */
export async function offerAddress(
  ctx: Context,
  library: SignInLibrary,
  id: string,
  origin: string,
): Promise<OfferedAddress> {
  const person = await findPersonRow(ctx.db, id);
  if (person.closed)
    throw new SlipdriftError('conflict', `The account of ${person.name} is closed. Open it first.`);
  // Written down first: an address that was made is never missing from the changes.
  await noteChanges(ctx.db, ctx, [{ action: 'reset_offered', subject: 'person', subjectId: id }]);
  return toOffered(ctx, id, await offerPassword(ctx, library, id), origin);
}

export async function changePerson(
  ctx: Context,
  id: string,
  change: z.output<typeof personChange>,
): Promise<ListedPerson> {
  await inSetUp(ctx.db, async (transaction) => {
    const { name, role, depots, closed, email } = await findPersonRow(transaction, id);
    const before = { name, role, depots, closed };
    const { unlock, ...asked } = change;
    const after = { ...before, ...withoutUndefined(asked) };
    refuseScopedAdmin(after.role, after.depots);
    await refuseUnknownDepots(transaction, after.depots);
    const loses = role === 'admin' && !closed && (after.role !== 'admin' || after.closed);
    if (loses && !(await hasOtherAdmin(transaction, id)))
      throw new SlipdriftError(
        'conflict',
        `${name} is the only admin: nobody could let people in any more. Make somebody else admin first. Nothing was changed.`,
      );
    if (changedFields(before, after).length > 0) {
      await transaction
        .update(people)
        .set({ ...after, updatedAt: ctx.now() })
        .where(eq(people.id, id));
      await noteChanges(transaction, ctx, [
        { action: 'changed', subject: 'person', subjectId: id, before, after },
      ]);
    }
    if (after.closed) await transaction.delete(sessions).where(eq(sessions.userId, id));
    if (unlock === true) {
      const opened = await transaction
        .delete(signInAttempts)
        .where(eq(signInAttempts.email, email))
        .returning();
      if (opened.length > 0)
        await noteChanges(transaction, ctx, [
          {
            action: 'changed',
            subject: 'person',
            subjectId: id,
            before: { locked_until: opened[0]?.lockedUntil?.toISOString() ?? null },
            after: { locked_until: null },
          },
        ]);
    }
  });
  return findListed(ctx, id);
}

/** Signs a person out wherever they are signed in. */
export async function signOutPerson(ctx: Context, id: string): Promise<void> {
  await findPersonRow(ctx.db, id);
  await endAllSessions(ctx, id);
}

const withoutUndefined = <T extends object>(fields: T) =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<{
    [K in keyof T]: Exclude<T[K], undefined>;
  }>;

async function findPersonRow(db: Database, id: string): Promise<typeof people.$inferSelect> {
  const [row] = await db.select().from(people).where(eq(people.id, id));
  if (row === undefined)
    throw new SlipdriftError('not_found', `There is no person ${id}. GET /api/people has the list.`);
  return row;
}

async function findListed(ctx: Context, id: string): Promise<ListedPerson> {
  const [person] = await listPeople(ctx, [id]);
  if (person === undefined) throw new SlipdriftError('not_found', `There is no person ${id}.`);
  return person;
}

async function toOffered(ctx: Context, id: string, { token, expiresAt }: OfferedToken, origin: string) {
  const person = await findListed(ctx, id);
  return { person, address: oneTimeUrl(origin, token), expires_at: expiresAt.toISOString() };
}

/** The token stands in the fragment: browsers keep it to themselves, and no log of a server or proxy gets it. */
export const oneTimeUrl = (origin: string, token: string): string => `${origin}/welcome#${token}`;

/** Who lets people and machines in reaches everything by that, so depots would only seem to hold. */
function refuseScopedAdmin(role: Role, depots: readonly string[] | null): void {
  if (role !== 'admin' || depots === null) return;
  throw new SlipdriftError('invalid_request', 'An admin works for all depots. Nothing was changed.', {
    errors: [{ field: 'depots', message: 'must be all depots for an admin' }],
  });
}

async function refuseUnknownDepots(db: Database, depots: readonly string[] | null): Promise<void> {
  if (depots === null) return;
  const known = await db
    .select({ id: depotTable.id })
    .from(depotTable)
    .where(inArray(depotTable.id, [...depots]));
  const unknown = depots.find((depot) => !known.some(({ id }) => id === depot));
  if (unknown === undefined) return;
  throw new SlipdriftError('invalid_request', `No depot '${unknown}' is known. Nothing was changed.`, {
    errors: [{ field: 'depots', message: `'${unknown}' is not known; create the depot first` }],
  });
}
