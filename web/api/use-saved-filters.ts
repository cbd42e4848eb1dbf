import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { SavedFilter } from '#server/contract/ranking.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';

const key = ['saved-filters'] as const;

/** The person's own filters of the list, by name. */
export const useSavedFilters = () =>
  useQuery({ queryKey: key, queryFn: ({ signal }) => getJson<SavedFilter[]>('/saved-filters', {}, signal) });

/** Keeps a filter; `instead` goes once it is kept, which gives that one another name. */
export function useSaveFilter() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async ({ instead, ...filter }: { name: string; search: string; instead: number | null }) => {
      const saved = await sendJson<SavedFilter>('POST', '/saved-filters', filter);
      if (instead !== null && instead !== saved.id) await sendOnly('DELETE', `/saved-filters/${instead}`);
      return saved;
    },
    onSettled: () => client.invalidateQueries({ queryKey: key }),
  });
}

export function useDeleteSavedFilter() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: number) => sendOnly('DELETE', `/saved-filters/${id}`),
    onSettled: () => client.invalidateQueries({ queryKey: key }),
  });
}
