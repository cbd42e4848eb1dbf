import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { OneTimeAddress, Session } from '#server/contract/people.ts';
import { sendJson } from './send-json.ts';
import { takeSession } from './session.ts';

/** What a one-time address is for. Asked by POST, so that its token stands in no log. */
export const useOneTimeAddress = (token: string, isWanted: boolean) =>
  useQuery({
    queryKey: ['one-time', token],
    queryFn: () => sendJson<OneTimeAddress>('POST', '/one-time', { token }),
    enabled: isWanted && token !== '',
    gcTime: 0,
  });

export function useOneTimePassword() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (use: { token: string; password: string; name?: string; email?: string }) =>
      sendJson<Session>('POST', '/one-time/password', use),
    onSuccess: (session) => takeSession(client, session),
    gcTime: 0,
  });
}
