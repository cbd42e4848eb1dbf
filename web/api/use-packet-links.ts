import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { NewPacketLink, PacketLink } from '#server/contract/packets.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';
import { packetPath } from './use-packet.ts';

const linksKey = (id: number) => ['packet-links', id] as const;

export const usePacketLinks = (id: number) =>
  useQuery({
    queryKey: linksKey(id),
    queryFn: ({ signal }) => getJson<PacketLink[]>(`${packetPath(id)}/links`, {}, signal),
    staleTime: 15_000,
  });

export function useMakeLink(id: number) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (request: { label: string; days: number; may_report: boolean }) =>
      sendJson<NewPacketLink>('POST', `${packetPath(id)}/links`, request),
    onSuccess: () => client.invalidateQueries({ queryKey: linksKey(id) }),
    // The address is shown once, and forgotten with the form.
    gcTime: 0,
  });
}

export function useRevokeLink(id: number) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (link: number) => sendOnly('DELETE', `${packetPath(id)}/links/${link}`),
    onSettled: () => client.invalidateQueries({ queryKey: linksKey(id) }),
  });
}
