import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { AtShop } from '#server/contract/vehicle.ts';
import { sendJson, sendOnly } from './send-json.ts';
import { vehicleKeys } from './use-vehicle.ts';

const pathOf = (vehicle: string) => `/vehicles/${encodeURIComponent(vehicle)}/shop`;

export function useSendToShop(vehicle: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (request: { depot: string; note: string | null }) =>
      sendJson<AtShop>('PUT', pathOf(vehicle), request),
    onSuccess: () => client.invalidateQueries({ queryKey: vehicleKeys.all(vehicle) }),
  });
}

export function useCallBack(vehicle: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: () => sendOnly('DELETE', pathOf(vehicle)),
    onSettled: () => client.invalidateQueries({ queryKey: vehicleKeys.all(vehicle) }),
  });
}
