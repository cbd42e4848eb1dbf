import { type QueryClient, queryOptions } from '@tanstack/react-query';
import type { Session } from '#server/contract/people.ts';
import { getJson } from './get-json.ts';
import { ProblemError } from './problem-error.ts';

/** Who is signed in, and where nobody is, why somebody no longer is. */
export interface Seen {
  session: Session;
  left: 'ended' | 'signed_out' | null;
}

const sessionKey = ['session'] as const;

/** Asked once; again when the window is looked at, because somebody else may have signed in beside it. */
export const sessionOptions = queryOptions({
  queryKey: sessionKey,
  queryFn: async ({ client, signal }): Promise<Seen> => {
    const session = await getJson<Session>('/session', {}, signal);
    const before = client.getQueryData<Seen>(sessionKey);
    if (before === undefined) return { session, left: null };
    if (nameWho(before.session) !== nameWho(session)) forgetAnswers(client);
    return { session, left: session.person !== null ? null : before.session.person ? 'ended' : before.left };
  },
  staleTime: Number.POSITIVE_INFINITY,
  gcTime: Number.POSITIVE_INFINITY,
  refetchOnWindowFocus: 'always',
});

/** After a call that signed somebody in. */
export function takeSession(client: QueryClient, session: Session): void {
  const before = client.getQueryData<Seen>(sessionKey);
  if (before === undefined || nameWho(before.session) !== nameWho(session)) forgetAnswers(client);
  client.setQueryData<Seen>(sessionKey, { session, left: null });
}

/** After the person's own sign-out. */
export function leaveSession(client: QueryClient): void {
  forgetAnswers(client);
  client.setQueryData<Seen>(sessionKey, (before) =>
    before === undefined
      ? before
      : { session: { ...before.session, person: null, key: null }, left: 'signed_out' },
  );
}

/** A refusal may mean that the session has ended, or that the role is another; the server is asked whether. */
export function noteRefusal(client: QueryClient, error: unknown): void {
  if (!(error instanceof ProblemError) || ![401, 403].includes(error.status)) return;
  if (client.getQueryData<Seen>(sessionKey)?.session.person != null) lookAgain(client);
}

/** After a change of the person who is signed in. */
export function lookAgain(client: QueryClient): void {
  void client.invalidateQueries({ queryKey: sessionKey }, { cancelRefetch: false });
}

/** Changes with the person and with what they may see. */
export const nameWho = ({ person }: Session): string =>
  person === null ? '' : JSON.stringify([person.id, person.role, person.depots]);

/** Nobody may see what somebody else was answered. */
const forgetAnswers = (client: QueryClient): void =>
  client.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== sessionKey[0] });
