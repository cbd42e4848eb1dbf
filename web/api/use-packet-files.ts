import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { PacketFile } from '#server/contract/packets.ts';
import { askPacket, askPacketJson } from './ask-packet.ts';
import { usePacketAccess } from './packet-access.ts';
import { lookAtPacketAgain, packetChange, packetKeys, packetPath } from './use-packet.ts';
import { writeQuery } from './write-query.ts';

export function useAddPhoto(id: number) {
  const access = usePacketAccess();
  const client = useQueryClient();
  return useMutation({
    ...packetChange,
    mutationFn: (file: File) =>
      askPacketJson<PacketFile>(access, writeQuery(`${packetPath(id)}/photos`, { name: file.name }), {
        method: 'POST',
        raw: { body: file, type: file.type === '' ? 'image/jpeg' : file.type },
      }),
    onSuccess: () => lookAtPacketAgain(client),
  });
}

/** Where a file of a packet can be shown from. A browser sends no secret for a picture, so a link's are fetched first. */
export function useFileAddress(id: number, file: number): { address: string | null; isError: boolean } {
  const access = usePacketAccess();
  const path = `${packetPath(id)}/files/${file}`;
  const isFetched = access.secret !== null;
  const { data, isError } = useQuery({
    queryKey: [...packetKeys.one(access, id), 'file', file],
    queryFn: async ({ signal }) => (await askPacket(access, path, { signal })).blob(),
    enabled: isFetched,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const [made, setMade] = useState<string | null>(null);
  useEffect(() => {
    if (data === undefined) return;
    const address = URL.createObjectURL(data);
    setMade(address);
    return () => URL.revokeObjectURL(address);
  }, [data]);
  return { address: isFetched ? made : `/api${path}`, isError };
}

export type PaperSize = 'a4' | 'letter';
export const pdfPath = (id: number, size: PaperSize, units: string): string =>
  writeQuery(`${packetPath(id)}/packet.pdf`, { size, units });

/** For who holds a link: the PDF is fetched with its secret and then saved by the browser. */
export function useSavePdf(id: number, name: string) {
  const access = usePacketAccess();
  return useMutation({
    ...packetChange,
    mutationFn: async ({ size, units }: { size: PaperSize; units: string }) => {
      const blob = await (await askPacket(access, pdfPath(id, size, units))).blob();
      const address = URL.createObjectURL(blob);
      const link = document.createElement('a');
      link.href = address;
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
    },
  });
}
