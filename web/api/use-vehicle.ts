import { queryOptions, useQuery } from '@tanstack/react-query';
import type { VehicleDetail, VehicleHistory, VehicleSeries } from '#server/contract/vehicle.ts';
import { getJson } from './get-json.ts';

const pathOf = (vehicle: string) => `/vehicles/${encodeURIComponent(vehicle)}`;

export const vehicleKeys = {
  detail: (vehicle: string) => ['vehicle', vehicle, 'detail'] as const,
  series: (vehicle: string) => ['vehicle', vehicle, 'series'] as const,
  history: (vehicle: string) => ['vehicle', vehicle, 'history'] as const,
};

export const vehicleOptions = (vehicle: string) =>
  queryOptions({
    queryKey: vehicleKeys.detail(vehicle),
    queryFn: ({ signal }) => getJson<VehicleDetail>(pathOf(vehicle), {}, signal),
  });

export const useVehicle = (vehicle: string) => useQuery(vehicleOptions(vehicle));

export const useVehicleSeries = (vehicle: string) =>
  useQuery({
    queryKey: vehicleKeys.series(vehicle),
    queryFn: ({ signal }) => getJson<VehicleSeries>(`${pathOf(vehicle)}/series`, {}, signal),
  });

export const useVehicleHistory = (vehicle: string) =>
  useQuery({
    queryKey: vehicleKeys.history(vehicle),
    queryFn: ({ signal }) => getJson<VehicleHistory>(`${pathOf(vehicle)}/history`, {}, signal),
  });
