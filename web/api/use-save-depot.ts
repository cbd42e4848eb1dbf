import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query';
import type { DepotInput, SetUpReply } from '#server/contract/fleet.ts';
import type { DepotPreview } from '#server/contract/settings.ts';
import { sendJson } from './send-json.ts';

/** Bookings that would not fit the depot as it would be. */
export const depotPreviewOptions = (change: DepotInput) =>
  queryOptions({
    queryKey: ['depot-preview', change],
    queryFn: ({ signal }) => sendJson<DepotPreview>('POST', '/settings/depot-preview', change, signal),
    gcTime: 60_000,
  });

/** Fields that are left out stay as they are. */
export function useSaveDepot() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (change: DepotInput) => sendJson<SetUpReply>('POST', '/depots', change),
    // Bay plan, bookings and free bay days all follow from it.
    onSuccess: () => client.invalidateQueries(),
  });
}
