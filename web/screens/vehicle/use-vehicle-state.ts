import { getRouteApi } from '@tanstack/react-router';
import { useCallback } from 'react';
import { patchVehicleSearch, type VehiclePatch, type VehicleSearch } from './vehicle-search.ts';

const route = getRouteApi('/vehicles/$vehicle');

/** What is chosen on the vehicle screen lives in the address bar; this reads it and changes it. */
export function useVehicleState() {
  const { vehicle } = route.useParams();
  const search = route.useSearch();
  const navigate = route.useNavigate();
  const change = useCallback(
    (patch: VehiclePatch) =>
      void navigate({
        to: '/vehicles/$vehicle',
        params: { vehicle },
        search: (before: VehicleSearch) => patchVehicleSearch(before, patch),
        replace: true,
        resetScroll: false,
      }),
    [navigate, vehicle],
  );
  return { vehicle, search, change };
}
export type VehicleState = ReturnType<typeof useVehicleState>;
