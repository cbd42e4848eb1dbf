import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { SetUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import type { SetUpKind } from '#server/contract/words.ts';
import { askServer } from './ask-server.ts';

export interface KeptFile {
  name: string;
  bytes: ArrayBuffer;
}

/** What a set-up file would come to; or, where it is no dry run, does it. */
export function useSetUpFile(kind: SetUpKind, isDry: boolean) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async ({ bytes }: KeptFile): Promise<SetUpFileReply> => {
      const [first, second] = new Uint8Array(bytes, 0, Math.min(2, bytes.byteLength));
      const response = await askServer(`/set-up/${kind}?dry_run=${isDry}`, {
        method: 'POST',
        headers: {
          accept: 'application/json',
          'content-type': 'text/csv',
          ...(first === 0x1f && second === 0x8b ? { 'content-encoding': 'gzip' } : {}),
        },
        body: bytes,
      });
      return (await response.json()) as SetUpFileReply;
    },
    gcTime: 0,
    onSuccess: () => (isDry ? undefined : client.invalidateQueries()),
  });
}
