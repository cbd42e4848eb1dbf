import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Platform, PlatformInput, SetUpReply } from '#server/contract/fleet.ts';
import { sendJson } from './send-json.ts';
import { useListAgain } from './use-list-again.ts';

/** Fields that are left out stay as they are, also within costs and reference point. */
export type PlatformChange = Omit<PlatformInput, 'costs' | 'reference'> & {
  costs?: Partial<Platform['costs']>;
  reference?: Partial<Platform['reference']>;
};

export function useSavePlatform() {
  const client = useQueryClient();
  const listAgain = useListAgain();
  return useMutation({
    mutationFn: (change: PlatformChange) => sendJson<SetUpReply>('POST', '/platforms', change),
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: ['platforms'] });
      listAgain();
    },
  });
}
