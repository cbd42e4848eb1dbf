import { eq } from 'drizzle-orm';
import { people } from '#db/schema/access.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { findPerson } from './find-person.ts';
import type { PeopleDesk } from './people-desk.ts';
import { noteSignIn } from './sign-in.ts';
import { COMPANY, libraryHeaders, toCookieHeader } from './sign-in-library.ts';

const REFUSED_AT = '/sign-in?company=';

/** Where the browser goes to sign in with the company; it comes back to `to`. */
export async function startCompanySignIn(
  { library, companyName }: PeopleDesk,
  to: string,
  headers: Headers,
): Promise<{ url: string; cookies: string[] }> {
  if (companyName === null)
    throw new SlipdriftError('not_found', 'No sign-in of a company is set up here. Sign in by password.');
  try {
    const { response, headers: answered } = await library.api.signInSocial({
      body: {
        provider: COMPANY,
        callbackURL: to,
        errorCallbackURL: `${REFUSED_AT}failed`,
        disableRedirect: true,
      },
      headers: libraryHeaders(headers, null),
      returnHeaders: true,
    });
    if (response.url === undefined) throw new Error('the sign-in library named no address');
    return { url: response.url, cookies: answered.getSetCookie() };
  } catch (error) {
    if (!(error instanceof Error) || !('statusCode' in error)) throw error;
    throw new SlipdriftError(
      'busy',
      'The sign-in of the company does not answer. Try again in a minute, or sign in by password.',
      { cause: error, retryAfterS: 60 },
    );
  }
}

/** Takes in what the company's provider sent the browser back with. */
export async function finishCompanySignIn(
  ctx: Context,
  { library, publicUrl }: PeopleDesk,
  request: Request,
): Promise<{ location: string; cookies: string[] }> {
  // The library compares addresses; behind a proxy the request names another than people use.
  const { pathname, search } = new URL(request.url);
  const headers = libraryHeaders(request.headers, ctx.actor.from);
  const answer = await library.handler(
    new Request(new URL(pathname + search, publicUrl ?? request.url), { headers }),
  );
  const cookies = answer.headers.getSetCookie();
  const location = toOwnPath(answer.headers.get('location'), publicUrl);
  if (location === null || location.startsWith('/sign-in')) return { location: sayWhy(location), cookies };
  const found = await findPerson(ctx, library, new Headers({ cookie: toCookieHeader(cookies) }));
  if (found === null) return { location: `${REFUSED_AT}failed`, cookies };
  const [person] = await ctx.db
    .select()
    .from(people)
    .where(eq(people.id, found.actor.id ?? ''));
  if (person !== undefined) await noteSignIn(ctx, person);
  return { location, cookies };
}

function toOwnPath(location: string | null, publicUrl: string | null): string | null {
  if (location === null) return null;
  const base = publicUrl ?? 'http://localhost';
  const url = new URL(location, base);
  if (url.origin !== new URL(base).origin) return null;
  // Two slashes at the beginning would name another server.
  return url.pathname.replace(/^\/+/, '/') + url.search + url.hash;
}

/** The library's reason as one of ours. */
function sayWhy(location: string | null): string {
  const error = new URL(location ?? '/', 'http://localhost').searchParams.get('error') ?? '';
  if (/signup.disabled|account.not.linked|not.verified|email/.test(error)) return `${REFUSED_AT}unknown`;
  if (/unable_to_create_session|session/.test(error)) return `${REFUSED_AT}closed`;
  return `${REFUSED_AT}failed`;
}
