import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Thresholds } from '#server/contract/settings.ts';
import { getJson } from './get-json.ts';
import { sendJson } from './send-json.ts';
import { useListAgain } from './use-list-again.ts';

const thresholdsKey = ['thresholds'] as const;

export const useThresholds = () =>
  useQuery({
    queryKey: thresholdsKey,
    queryFn: ({ signal }) => getJson<Thresholds>('/settings/thresholds', {}, signal),
  });

export function useSaveThresholds() {
  const client = useQueryClient();
  const listAgain = useListAgain();
  return useMutation({
    mutationFn: (thresholds: Thresholds) => sendJson<Thresholds>('PUT', '/settings/thresholds', thresholds),
    onSuccess: (stored) => {
      client.setQueryData(thresholdsKey, stored);
      listAgain();
    },
  });
}
