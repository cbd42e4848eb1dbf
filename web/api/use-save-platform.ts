import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Platform, PlatformInput, SetUpReply } from '#server/contract/fleet.ts';
import { sendJson } from './send-json.ts';
import { useListAgain } from './use-list-again.ts';

/** Fields that are left out stay as they are, also within a group; null takes solenoid or converter away. */
export type PlatformChange = Omit<PlatformInput, 'costs' | 'reference' | 'solenoid' | 'converter'> & {
  costs?: Partial<Platform['costs']>;
  reference?: Partial<Platform['reference']>;
  solenoid?: Partial<NonNullable<Platform['solenoid']>> | null;
  converter?: Partial<NonNullable<Platform['converter']>> | null;
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
