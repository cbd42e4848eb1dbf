import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import type { Depot, SetUpReply } from '#server/contract/fleet.ts';
import type { DepotPreview } from '#server/contract/settings.ts';
import { sendJson } from './send-json.ts';

/** Bookings that would not fit the depot as it would be. */
export const depotPreviewOptions = (depot: Depot) =>
  queryOptions({
    queryKey: ['depot-preview', depot],
    queryFn: ({ signal }) => sendJson<DepotPreview>('POST', '/settings/depot-preview', depot, signal),
    gcTime: 60_000,
  });

export function useSaveDepot() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (depot: Depot) => sendJson<SetUpReply>('POST', '/depots', depot),
    // Bay plan, bookings and free bay days all follow from it.
    onSuccess: () => client.invalidateQueries(),
  });
}
