import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type {
  WorkbenchSet,
  WorkbenchSetInput,
  WorkbenchSetLine,
  WorkbenchSets,
} from '#server/contract/workbench.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';

const key = ['workbench-sets'] as const;

/** The tables that the person has kept, by name. */
export const useWorkbenchSets = () =>
  useQuery({
    queryKey: key,
    queryFn: ({ signal }) => getJson<WorkbenchSets>('/workbench/sets', {}, signal),
  });

/** One of them with its text. */
export const useWorkbenchSet = (id: number | undefined) =>
  useQuery({
    queryKey: [...key, id],
    queryFn: ({ signal }) => getJson<WorkbenchSet>(`/workbench/sets/${id}`, {}, signal),
    enabled: id !== undefined,
    staleTime: Number.POSITIVE_INFINITY,
  });

export function useKeepSet() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (input: WorkbenchSetInput) => sendJson<WorkbenchSetLine>('POST', '/workbench/sets', input),
    onSettled: () => client.invalidateQueries({ queryKey: key }),
  });
}

export function useDeleteSet() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: number) => sendOnly('DELETE', `/workbench/sets/${id}`),
    onSettled: () => client.invalidateQueries({ queryKey: key, exact: true }),
  });
}
