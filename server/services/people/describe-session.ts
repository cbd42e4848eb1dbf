import { count } from 'drizzle-orm';
import { people } from '#db/schema/access.ts';
import type { Session } from '#server/contract/people.ts';
import type { Context } from '#server/services/context.ts';
import { findPerson } from './find-person.ts';
import type { PeopleDesk } from './people-desk.ts';

/** Who asks, by these cookies or the key that was found already, and how people can sign in here. */
export async function describeSession(
  ctx: Context,
  { library, companyName, demo }: PeopleDesk,
  headers: Headers,
  isKnown: boolean,
): Promise<Session> {
  const key = isKnown && ctx.actor.kind === 'key' ? { name: ctx.actor.name } : null;
  const found = key === null ? await findPerson(ctx, library, headers) : null;
  return {
    person: found === null ? null : toPerson(found),
    key,
    company: companyName === null ? null : { name: companyName },
    first: found === null && key === null && (await hasNobody(ctx)),
    demo,
  };
}

function toPerson({
  actor: { id, name, role, depots },
  email,
}: Awaited<ReturnType<typeof findPerson>> & object) {
  if (id === null || role === null) throw new Error('a signed-in person has an id and a role');
  return { id, name, email, role, depots: depots === null ? null : [...depots] };
}

async function hasNobody({ db }: Context): Promise<boolean> {
  const [found] = await db.select({ n: count() }).from(people);
  return (found?.n ?? 0) === 0;
}
