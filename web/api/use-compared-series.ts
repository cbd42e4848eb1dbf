import { useQueries } from '@tanstack/react-query';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { getJson } from './get-json.ts';
import { vehicleKeys } from './use-vehicle.ts';

/** The series of some vehicles, in their order; undefined while one is on its way or cannot be had. */
export const useComparedSeries = (vehicles: readonly string[]): (VehicleSeries | undefined)[] =>
  useQueries({
    queries: vehicles.map((vehicle) => ({
      queryKey: vehicleKeys.series(vehicle),
      queryFn: ({ signal }: { signal: AbortSignal }) =>
        getJson<VehicleSeries>(`/vehicles/${encodeURIComponent(vehicle)}/series`, {}, signal),
    })),
    combine: (answers) => answers.map(({ data }) => data),
  });
