import { getRouteApi } from '@tanstack/react-router';
import { useCallback, useMemo } from 'react';
import {
  parseVehicleSearch,
  patchVehicleSearch,
  type VehicleChange,
  type VehicleSearch,
} from './vehicle-search.ts';

const route = getRouteApi('/vehicles/$vehicle');

/** What is chosen on the vehicle screen lives in the address bar; this reads it and changes it. */
export function useVehicleState() {
  const { vehicle } = route.useParams();
  const raw = route.useSearch();
  // The router leaves what the parser drops beside what it keeps.
  const search = useMemo(() => parseVehicleSearch({ ...raw }), [raw]);
  const navigate = route.useNavigate();
  const change = useCallback(
    (to: VehicleChange) =>
      void navigate({
        to: '/vehicles/$vehicle',
        params: { vehicle },
        search: (before: VehicleSearch) => patchVehicleSearch(before, to),
        replace: true,
        resetScroll: false,
      }),
    [navigate, vehicle],
  );
  return { vehicle, search, change };
}
export type VehicleState = ReturnType<typeof useVehicleState>;
