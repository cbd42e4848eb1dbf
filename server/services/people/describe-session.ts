import { count } from 'drizzle-orm';
import { people } from '#db/schema/access.ts';
import type { Session } from '#server/contract/people.ts';
import type { Context } from '#server/services/context.ts';
import type { SignedIn } from './find-person.ts';
import type { PeopleDesk } from './people-desk.ts';

/** Who asks, by the session or the key that was found, and how people can sign in here. */
export async function describeSession(
  ctx: Context,
  { companyName, demo }: PeopleDesk,
  signedIn: SignedIn | null,
): Promise<Session> {
  const { kind, name } = ctx.actor;
  const key = kind === 'key' ? { name } : null;
  return {
    person: signedIn === null ? null : toPerson(signedIn),
    key,
    company: companyName === null ? null : { name: companyName },
    first: signedIn === null && key === null && (await hasNobody(ctx)),
    demo,
  };
}

function toPerson({ actor: { id, name, role, depots }, email }: SignedIn) {
  if (id === null || role === null) throw new Error('a signed-in person has an id and a role');
  return { id, name, email, role, depots: depots === null ? null : [...depots] };
}

async function hasNobody({ db }: Context): Promise<boolean> {
  const [found] = await db.select({ n: count() }).from(people);
  return (found?.n ?? 0) === 0;
}
