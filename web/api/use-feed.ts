import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { DepotFeed, NewDepotFeed } from '#server/contract/bookings.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';

const pathOf = (depot: string) => `/depots/${encodeURIComponent(depot)}/feed`;
const keyOf = (depot: string) => ['depot-feed', depot] as const;

export const useFeed = (depot: string) =>
  useQuery({
    queryKey: keyOf(depot),
    queryFn: ({ signal }) => getJson<DepotFeed>(pathOf(depot), {}, signal),
    staleTime: 0,
  });

/** Makes the address, or another one in its place. */
export function useMakeFeed(depot: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: () => sendJson<NewDepotFeed>('POST', pathOf(depot)),
    onSuccess: () => client.invalidateQueries({ queryKey: keyOf(depot) }),
    // The address is a secret: it is not kept longer than it is shown.
    gcTime: 0,
  });
}

export function useEndFeed(depot: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: () => sendOnly('DELETE', pathOf(depot)),
    onSettled: () => client.invalidateQueries({ queryKey: keyOf(depot) }),
  });
}
