import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { SetUpReply, VehicleInput } from '#server/contract/fleet.ts';
import { sendJson } from './send-json.ts';
import { useListAgain } from './use-list-again.ts';
import { vehicleKeys } from './use-vehicle.ts';

/** Fields that are left out stay as they are. */
export function useSaveVehicle(vehicle: string) {
  const client = useQueryClient();
  const listAgain = useListAgain();
  return useMutation({
    mutationFn: (change: Omit<VehicleInput, 'id'>) =>
      sendJson<SetUpReply>('POST', '/vehicles', { id: vehicle, ...change }),
    onSuccess: async (_, change) => {
      await client.invalidateQueries({ queryKey: vehicleKeys.all(vehicle) });
      if (change.platform !== undefined || change.depot !== undefined) listAgain();
    },
  });
}
