import { and, asc, count, eq, gt, inArray, sql } from 'drizzle-orm';
import { people, sessions, signInAttempts, signInWays } from '#db/schema/access.ts';
import type { ListedPerson } from '#server/contract/people.ts';
import type { Context } from '#server/services/context.ts';
import { COMPANY } from './sign-in-library.ts';

/** Everybody, by name; or those of these ids. */
export async function listPeople(ctx: Context, ids?: readonly string[]): Promise<ListedPerson[]> {
  const { db } = ctx;
  const now = ctx.now();
  const [rows, ways, places] = await Promise.all([
    db
      .select({ person: people, lockedUntil: signInAttempts.lockedUntil })
      .from(people)
      .leftJoin(signInAttempts, eq(signInAttempts.email, people.email))
      .where(ids === undefined ? undefined : inArray(people.id, [...ids]))
      .orderBy(asc(sql`lower(${people.name})`), asc(people.email)),
    db.select({ userId: signInWays.userId, providerId: signInWays.providerId }).from(signInWays),
    db
      .select({ userId: sessions.userId, n: count() })
      .from(sessions)
      .where(gt(sessions.expiresAt, new Date()))
      .groupBy(sessions.userId),
  ]);
  const signedIn = new Map(places.map(({ userId, n }) => [userId, n]));
  const withWay = new Set(ways.map(({ userId }) => userId));
  const withCompany = new Set(
    ways.filter(({ providerId }) => providerId === COMPANY).map(({ userId }) => userId),
  );
  return rows.map(({ person, lockedUntil }) => {
    const locked = lockedUntil !== null && lockedUntil > now ? lockedUntil.toISOString() : null;
    const { id, name, email, role, depots } = person;
    return {
      id,
      name,
      email,
      role,
      depots,
      state: person.closed ? 'closed' : locked !== null ? 'locked' : withWay.has(id) ? 'active' : 'invited',
      company: withCompany.has(id),
      signed_in_at: person.signedInAt?.toISOString() ?? null,
      locked_until: locked,
      sessions: signedIn.get(id) ?? 0,
      created_at: person.createdAt.toISOString(),
    };
  });
}

/** Whether anybody could administer this installation if `without` could not. */
export async function hasOtherAdmin(db: Context['db'], without: string): Promise<boolean> {
  const rows = await db
    .select({ id: people.id })
    .from(people)
    .where(and(eq(people.role, 'admin'), eq(people.closed, false)));
  return rows.some(({ id }) => id !== without);
}
