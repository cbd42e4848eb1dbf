import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { AccessKey, KeyInput, NewKey } from '#server/contract/keys.ts';
import { getJson } from './get-json.ts';
import { sendJson } from './send-json.ts';

const keysKey = ['keys'] as const;

export const useKeys = () =>
  useQuery({
    queryKey: keysKey,
    queryFn: ({ signal }) => getJson<AccessKey[]>('/keys', {}, signal),
  });

export function useMakeKey() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (input: KeyInput) => sendJson<NewKey>('POST', '/keys', input),
    onSuccess: () => client.invalidateQueries({ queryKey: keysKey }),
    gcTime: 0,
  });
}

export function useRevokeKey() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: string) => sendJson<AccessKey>('DELETE', `/keys/${encodeURIComponent(id)}`),
    onSettled: () => client.invalidateQueries({ queryKey: keysKey }),
  });
}
