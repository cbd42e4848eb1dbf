import { eq, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { prepareOnce } from '#db/prepare-once.ts';
import { people, sessions } from '#db/schema/access.ts';

const byToken = prepareOnce((db) =>
  db
    .select({
      id: sessions.id,
      expiresAt: sessions.expiresAt,
      person: {
        id: people.id,
        name: people.name,
        email: people.email,
        role: people.role,
        depots: people.depots,
        closed: people.closed,
      },
    })
    .from(sessions)
    .innerJoin(people, eq(people.id, sessions.userId))
    .where(eq(sessions.token, sql.placeholder('token')))
    .prepare('session_by_token'),
);

/** The session of a token, ended or not, with whose it is. */
export async function findSession(db: Database, token: string) {
  const [row] = await byToken(db).execute({ token });
  return row ?? null;
}
