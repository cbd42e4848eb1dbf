import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Person, Session } from '#server/contract/people.ts';
import { usePacketAccess } from './packet-access.ts';
import { sendJson, sendOnly } from './send-json.ts';
import { leaveSession, sessionOptions, takeSession } from './session.ts';

/** Behind a link nobody is signed in, and nobody is asked who. */
export function useSession() {
  const isOwn = usePacketAccess().secret === null;
  return useQuery({ ...sessionOptions, enabled: isOwn });
}

/** Who is signed in; screens stand only where somebody is. */
export const usePerson = (): Person | null => useSession().data?.session.person ?? null;

export function useSignIn() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (who: { email: string; password: string }) => sendJson<Session>('POST', '/session', who),
    onSuccess: (session) => takeSession(client, session),
    gcTime: 0,
  });
}

/** Answers where the browser has to go. */
export const useCompanySignIn = () =>
  useMutation({
    mutationFn: (to: string) => sendJson<{ url: string }>('POST', '/session/company', { to }),
  });

export function useSignOut(where: 'here' | 'everywhere') {
  const client = useQueryClient();
  return useMutation({
    mutationFn: () => sendOnly('DELETE', where === 'here' ? '/session' : '/sessions'),
    onSuccess: () => leaveSession(client),
  });
}
