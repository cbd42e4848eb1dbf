import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { PreviewReply, PreviewRequest } from '#server/contract/settings.ts';
import { sendJson } from './send-json.ts';

/** The server has waited already before it says how far it is. */
const askAgainMs = 250;

/** What a change would do to the list, asked again until it is made; null asks nothing. */
export const usePreview = (request: PreviewRequest | null) =>
  useQuery({
    queryKey: ['settings-preview', request],
    queryFn: ({ signal }) => sendJson<PreviewReply>('POST', '/settings/preview', request, signal),
    enabled: request !== null,
    placeholderData: keepPreviousData,
    refetchInterval: ({ state }) => (state.data?.preview === null ? askAgainMs : false),
    refetchOnWindowFocus: false,
    // The list moves on with every delivery.
    staleTime: 30_000,
    gcTime: 60_000,
  });
