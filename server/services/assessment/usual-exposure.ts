import type { VehicleExposure } from '#db/queries/read-platform-exposures.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { heatPerWay } from '#server/services/vehicles/heat-per-way.ts';

/** Fewer vehicles than this have nothing that is usual. Own choice. */
const LEAST_VEHICLES = 5;

/** What is usual on a platform: medians over its vehicles of clutch heat and of the share of hot readings. */
export function usualExposure(vehicles: readonly VehicleExposure[]) {
  const heats = vehicles.flatMap(({ heatKw, speedKmh }) => heatPerWay(heatKw, speedKmh) ?? []);
  const shares = vehicles.flatMap(({ readings, hot }) => (readings > 0 ? [hot / readings] : []));
  return {
    usualHeatMjPer1000km: medianOfEnough(heats),
    heatVehicles: heats.length,
    usualHotShare: medianOfEnough(shares),
    hotVehicles: shares.length,
  };
}

const medianOfEnough = (values: readonly number[]): number | null =>
  values.length < LEAST_VEHICLES ? null : measureMedian(values);
