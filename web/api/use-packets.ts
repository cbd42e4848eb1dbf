import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Packet, PacketList } from '#server/contract/packets.ts';
import type { PacketState } from '#server/contract/words.ts';
import { getJson } from './get-json.ts';
import { sendJson } from './send-json.ts';
import { vehicleKeys } from './use-vehicle.ts';
import { useWordUnits } from './use-word-units.ts';

export const packetListKey = ['packets'] as const;

export interface PacketsAsk {
  state: PacketState;
  vehicle?: string | undefined;
  limit: number;
}

export function usePackets(ask: PacketsAsk, enabled = true) {
  const units = useWordUnits();
  return useQuery({
    queryKey: [...packetListKey, ask, units],
    queryFn: ({ signal }) => getJson<PacketList>('/packets', { ...ask, units }, signal),
    placeholderData: keepPreviousData,
    staleTime: 15_000,
    enabled,
  });
}

/** Opens a packet for a vehicle; the answer is the open one where there is one. */
export function useOpenPacket() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (vehicle: string) => sendJson<Packet>('POST', '/packets', { vehicle }),
    onSuccess: ({ vehicle }) => {
      void client.invalidateQueries({ queryKey: packetListKey });
      void client.invalidateQueries({ queryKey: vehicleKeys.all(vehicle) });
    },
  });
}
