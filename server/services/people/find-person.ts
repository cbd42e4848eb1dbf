import { isDeepStrictEqual } from 'node:util';
import type { Role } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import { type Actor, programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { askLibrary } from './ask-library.ts';
import { libraryHeaders, type SignInLibrary } from './sign-in-library.ts';

export interface SignedIn {
  actor: Actor;
  email: string;
  sessionId: string;
  /** to send along: a session that is used stays longer */
  cookies: string[];
}

/** Who is signed in with these cookies; null where nobody is, or where the account was closed. */
export async function findPerson(
  { db }: Pick<Context, 'db'>,
  library: SignInLibrary,
  headers: Headers,
): Promise<SignedIn | null> {
  const { response, headers: answered } = await askLibrary(db, () =>
    library.api.getSession({ headers: libraryHeaders(headers, null), returnHeaders: true }),
  );
  if (response === null || response.user.closed === true) return null;
  const { user, session } = response;
  const actor = toActor({
    id: user.id,
    name: user.name,
    role: user.role as Role,
    depots: user.depots ?? null,
  });
  const confirm = async () => {
    const found = await findPerson({ db }, library, headers);
    if (found === null) throw new SlipdriftError('unauthorized', 'Your session has ended.');
    if (!isDeepStrictEqual(reachOf(found.actor), reachOf(actor)))
      throw new SlipdriftError('not_allowed', 'What you may do was changed.');
  };
  return {
    actor: { ...actor, confirm },
    email: user.email,
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
