import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Recorded } from '#server/contract/test-steps.ts';
import { askPacketJson } from './ask-packet.ts';
import { usePacketAccess } from './packet-access.ts';
import { lookAtPacketAgain, packetChange, packetPath } from './use-packet.ts';
import { writeQuery } from './write-query.ts';

/** Answers the finding once it is stored, or questions instead. */
export function useRecordFinding(id: number) {
  const access = usePacketAccess();
  const client = useQueryClient();
  return useMutation({
    ...packetChange,
    mutationFn: (input: Record<string, unknown>) =>
      askPacketJson<Recorded>(access, `${packetPath(id)}/findings`, { method: 'POST', json: input }),
    onSuccess: ({ kind }) => (kind === 'stored' ? lookAtPacketAgain(client) : undefined),
  });
}

/** Smaller files go as they are. */
const compressedFromBytes = 64 * 1024;

export function useRecordRoadTest(id: number) {
  const access = usePacketAccess();
  const client = useQueryClient();
  return useMutation({
    ...packetChange,
    mutationFn: async ({ file, asMeasured }: { file: File; asMeasured: boolean }) =>
      askPacketJson<Recorded>(
        access,
        writeQuery(`${packetPath(id)}/road-test`, { name: file.name, as_measured: String(asMeasured) }),
        { method: 'POST', raw: { type: 'text/csv', ...(await packTrace(file)) } },
      ),
    onSuccess: ({ kind }) => (kind === 'stored' ? lookAtPacketAgain(client) : undefined),
  });
}

/** A recording of a drive is large and repeats itself, and a bay has a poor connection. */
async function packTrace(file: File): Promise<{ body: Blob; encoding?: string }> {
  if (/\.gz$/i.test(file.name)) return { body: file, encoding: 'gzip' };
  if (file.size < compressedFromBytes || !('CompressionStream' in window)) return { body: file };
  const packed = file.stream().pipeThrough(new CompressionStream('gzip'));
  return { body: await new Response(packed).blob(), encoding: 'gzip' };
}
