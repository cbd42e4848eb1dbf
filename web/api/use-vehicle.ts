import { queryOptions, useQueries, useQuery } from '@tanstack/react-query';
import type { VehicleDetail, VehicleHistory, VehicleSeries } from '#server/contract/vehicle.ts';
import { getJson } from './get-json.ts';
import { useWordUnits } from './use-word-units.ts';

type WordUnits = ReturnType<typeof useWordUnits>;

const pathOf = (vehicle: string) => `/vehicles/${encodeURIComponent(vehicle)}`;

export const vehicleKeys = {
  all: (vehicle: string) => ['vehicle', vehicle] as const,
  detail: (vehicle: string, units: WordUnits) => ['vehicle', vehicle, 'detail', units] as const,
  series: (vehicle: string) => ['vehicle', vehicle, 'series'] as const,
  history: (vehicle: string, units: WordUnits) => ['vehicle', vehicle, 'history', units] as const,
};

export const vehicleOptions = (vehicle: string, units: WordUnits) =>
  queryOptions({
    queryKey: vehicleKeys.detail(vehicle, units),
    queryFn: ({ signal }) => getJson<VehicleDetail>(pathOf(vehicle), { units }, signal),
  });

export const useVehicle = (vehicle: string, enabled = true) =>
  useQuery({ ...vehicleOptions(vehicle, useWordUnits()), enabled });

/** Some vehicles at once; `isReady` once each has been answered, or refused. */
export function useVehicles(vehicles: readonly string[]) {
  const units = useWordUnits();
  return useQueries({
    queries: vehicles.map((vehicle) => vehicleOptions(vehicle, units)),
    combine: (answers) => ({
      isReady: answers.every(({ isPending }) => !isPending),
      byVehicle: new Map(answers.flatMap(({ data }) => (data === undefined ? [] : [[data.vehicle, data]]))),
    }),
  });
}

export const useVehicleSeries = (vehicle: string) =>
  useQuery({
    queryKey: vehicleKeys.series(vehicle),
    queryFn: ({ signal }) => getJson<VehicleSeries>(`${pathOf(vehicle)}/series`, {}, signal),
  });

export function useVehicleHistory(vehicle: string) {
  const units = useWordUnits();
  return useQuery({
    queryKey: vehicleKeys.history(vehicle, units),
    queryFn: ({ signal }) => getJson<VehicleHistory>(`${pathOf(vehicle)}/history`, { units }, signal),
  });
}
