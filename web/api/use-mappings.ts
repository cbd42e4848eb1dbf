import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Mapping, StoredMapping } from '#server/contract/mappings.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';

const key = ['mappings'] as const;

/** How files are read, by name. */
export const useMappings = () =>
  useQuery({
    queryKey: key,
    queryFn: ({ signal }) => getJson<StoredMapping[]>('/mappings', {}, signal),
  });

export function useSaveMapping() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ name, mapping }: { name: string; mapping: Mapping }) =>
      sendJson<StoredMapping>('PUT', `/mappings/${encodeURIComponent(name)}`, mapping),
    onSettled: () => client.invalidateQueries({ queryKey: key }),
  });
}

export function useDeleteMapping() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (name: string) => sendOnly('DELETE', `/mappings/${encodeURIComponent(name)}`),
    onSettled: () => client.invalidateQueries({ queryKey: key }),
  });
}
