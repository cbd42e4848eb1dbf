import { type QueryClient, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Packet } from '#server/contract/packets.ts';
import type { Closed, ReportContent } from '#server/contract/repair.ts';
import type { RoadTrace } from '#server/contract/test-steps.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import type { CoreState, LifeSource, Outcome } from '#server/contract/words.ts';
import { askPacketJson } from './ask-packet.ts';
import { type PacketAccess, usePacketAccess } from './packet-access.ts';
import { packetListKey } from './use-packets.ts';
import { rankingKeys } from './use-ranking.ts';
import { vehicleKeys } from './use-vehicle.ts';
import { useWordUnits } from './use-word-units.ts';
import { writeQuery } from './write-query.ts';

/** `null` where only the link says which packet it is. */
type PacketId = number | null;

export const packetKeys = {
  all: ['packet'] as const,
  one: (access: PacketAccess, id: PacketId) => ['packet', access.secret ?? id] as const,
};
export const packetPath = (id: number): string => `/packets/${id}`;

export function usePacket(id: PacketId) {
  const access = usePacketAccess();
  const units = useWordUnits();
  const path = id === null ? '/packet-by-link' : packetPath(id);
  return useQuery({
    queryKey: [...packetKeys.one(access, id), 'whole', units],
    queryFn: ({ signal }) => askPacketJson<Packet>(access, writeQuery(path, { units }), { signal }),
    // Two may work on one vehicle: what is shown is not left old.
    staleTime: 15_000,
  });
}

export function usePacketSeries(id: number) {
  const access = usePacketAccess();
  return useQuery({
    queryKey: [...packetKeys.one(access, id), 'series'],
    queryFn: ({ signal }) => askPacketJson<VehicleSeries>(access, `${packetPath(id)}/series`, { signal }),
  });
}

export function useRoadTrace(id: number, finding: number) {
  const access = usePacketAccess();
  return useQuery({
    queryKey: [...packetKeys.one(access, id), 'trace', finding],
    queryFn: ({ signal }) =>
      askPacketJson<RoadTrace>(access, `${packetPath(id)}/findings/${finding}/trace`, { signal }),
    staleTime: Number.POSITIVE_INFINITY,
  });
}

/** Fails at once without a connection, so that what was typed is said to be unsent rather than kept waiting unseen. */
export const packetChange = { networkMode: 'always' } as const;

/** Has what follows from a packet asked again. */
export function lookAtPacketAgain(client: QueryClient): Promise<void> {
  for (const queryKey of [packetListKey, rankingKeys.all]) void client.invalidateQueries({ queryKey });
  return client.invalidateQueries({ queryKey: packetKeys.all });
}

/**
 * Saves parts of the report one after the other, each with the others as the one before left them: two that are pressed
 * quickly are not each other's conflict.
 */
export function useSaveReport(packet: Packet) {
  const access = usePacketAccess();
  const client = useQueryClient();
  const units = useWordUnits();
  const key = [...packetKeys.one(access, packet.id), 'whole', units];
  return useMutation({
    ...packetChange,
    scope: { id: `report of packet ${packet.id}` },
    mutationFn: (changed: Partial<ReportContent>) => {
      const { version, report } = client.getQueryData<Packet>(key) ?? packet;
      return askPacketJson<Packet>(access, `${packetPath(packet.id)}/report`, {
        method: 'PUT',
        json: { version, ...report, ...changed },
      });
    },
    onSuccess: () => lookAtPacketAgain(client),
  });
}

export interface CloseInput {
  outcome: Outcome;
  odometer_km: number;
  work_at?: string;
  ended?: 'failed' | 'preventive';
  old_converter?: { fitted_km: number; source: LifeSource };
  reason: string;
  calm_km?: number;
  without_cooler: string;
  as_measured: boolean;
}

export function useClosePacket(packet: Packet) {
  const access = usePacketAccess();
  const client = useQueryClient();
  return useMutation({
    ...packetChange,
    mutationFn: (input: CloseInput) =>
      askPacketJson<Closed>(access, `${packetPath(packet.id)}/close`, {
        method: 'POST',
        json: { version: packet.version, ...input },
      }),
    onSuccess: async ({ kind }) => {
      if (kind !== 'closed') return;
      void client.invalidateQueries({ queryKey: vehicleKeys.all(packet.vehicle) });
      await lookAtPacketAgain(client);
    },
  });
}

export function useNoteCore(id: number) {
  const access = usePacketAccess();
  const client = useQueryClient();
  return useMutation({
    ...packetChange,
    mutationFn: (core: { part: number; core: CoreState }) =>
      askPacketJson<Packet>(access, `${packetPath(id)}/core`, { method: 'PUT', json: core }),
    onSuccess: () => lookAtPacketAgain(client),
  });
}
