import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { OwnSession } from '#server/contract/people.ts';
import { getJson } from './get-json.ts';
import { sendOnly } from './send-json.ts';

const sessionsKey = ['own-sessions'] as const;

/** Where the person is signed in. */
export const useOwnSessions = () =>
  useQuery({
    queryKey: sessionsKey,
    queryFn: ({ signal }) => getJson<OwnSession[]>('/sessions', {}, signal),
  });

export function useEndSession() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: string) => sendOnly('DELETE', `/sessions/${encodeURIComponent(id)}`),
    onSettled: () => client.invalidateQueries({ queryKey: sessionsKey }),
  });
}

export function usePasswordChange() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (change: { current: string; password: string }) => sendOnly('POST', '/password', change),
    onSuccess: () => client.invalidateQueries({ queryKey: sessionsKey }),
    gcTime: 0,
  });
}
