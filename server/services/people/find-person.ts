import { isDeepStrictEqual } from 'node:util';
import type { Database } from '#db/client.ts';
import { findSession } from '#db/queries/find-session.ts';
import type { Role } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import { type Actor, programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { createShare } from '#server/services/share-equal.ts';
import { askLibrary } from './ask-library.ts';
import { readSessionToken } from './read-session-token.ts';
import { libraryHeaders, type SignInLibrary } from './sign-in-library.ts';

export interface SignedIn {
  actor: Actor;
  email: string;
  sessionId: string;
  /** to send along: a session that is used stays longer */
  cookies: string[];
}

interface Found {
  person: Known & { email: string; closed: boolean };
  sessionId: string;
  cookies: string[];
}

/** Who is signed in with these cookies; null where nobody is, or where the account was closed. */
export async function findPerson(
  { db }: Pick<Context, 'db'>,
  library: SignInLibrary,
  headers: Headers,
): Promise<SignedIn | null> {
  const found = (await readRunning(db, library, headers)) ?? (await askForSession(db, library, headers));
  if (found === null || found.person.closed) return null;
  const { person, sessionId, cookies } = found;
  const actor = toActor(person);
  const confirm = async () => {
    const now = await findPerson({ db }, library, headers);
    if (now === null) throw new SlipdriftError('unauthorized', 'Your session has ended.');
    if (!isDeepStrictEqual(reachOf(now.actor), reachOf(actor)))
      throw new SlipdriftError('not_allowed', 'What you may do was changed.');
  };
  return { actor: { ...actor, confirm }, email: person.email, sessionId, cookies };
}

/**
 * The session itself, in one statement, as nearly every request finds it: it runs, and need not be made longer yet. The
 * library would take three milliseconds over the same. Null where it is to decide.
 */
async function readRunning(db: Database, library: SignInLibrary, headers: Headers): Promise<Found | null> {
  const { authCookies, secret, sessionConfig } = await library.$context;
  const token = readSessionToken(headers.get('cookie') ?? '', {
    name: authCookies.sessionToken.name,
    otherNames: [authCookies.sessionData.name],
    secret,
  });
  const row = token === null ? null : await findShared(db, token);
  if (row === null) return null;
  const leftMs = row.expiresAt.getTime() - Date.now();
  const longEnoughMs = (sessionConfig.expiresIn - sessionConfig.updateAge) * 1000;
  return leftMs <= Math.max(0, longEnoughMs) ? null : { person: row.person, sessionId: row.id, cookies: [] };
}

const shareOf = new WeakMap<Database, ReturnType<typeof createShare>>();

/** A screen asks for several things at once, with one session: looked up after each has asked, but not for each alone. */
function findShared(db: Database, token: string): ReturnType<typeof findSession> {
  const share = shareOf.get(db) ?? createShare();
  shareOf.set(db, share);
  return share(token, () => findSession(db, token));
}

/** Ends what has run out, and makes longer what is used. */
async function askForSession(db: Database, library: SignInLibrary, headers: Headers): Promise<Found | null> {
  const { response, headers: answered } = await askLibrary(db, () =>
    library.api.getSession({ headers: libraryHeaders(headers, null), returnHeaders: true }),
  );
  if (response === null) return null;
  const { user, session } = response;
  return {
    person: {
      id: user.id,
      name: user.name,
      email: user.email,
      role: user.role as Role,
      depots: user.depots ?? null,
      closed: user.closed === true,
    },
    sessionId: session.id,
    cookies: answered.getSetCookie(),
  };
}

const reachOf = ({ role, depots }: Actor) => ({ role, depots });

interface Known {
  id: string;
  name: string;
  role: Role;
  depots: readonly string[] | null;
}

export const toActor = ({ id, name, role, depots }: Known): Actor => ({
  ...programActor(name),
  kind: 'person',
  id,
  role,
  right: null,
  depots,
});
