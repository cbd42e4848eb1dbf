import type { VehicleSeries } from '#server/contract/vehicle.ts';

/** One vehicle's slip, laid out by the kilometres before its newest one: 0 is now, the past is negative. */
export interface ComparedSeries {
  vehicle: string;
  limitRpm: number;
  points: { km: number; slipRpm: number; weight: number }[];
  /** where the rise began, null where nothing rises */
  bendKm: number | null;
  /** what the fit says, empty where there is none */
  line: [km: number, slipRpm: number][];
}

/** The reference slip of the converter fitted now. */
export function readCompared({ vehicle, limit_rpm, odometer_km, series }: VehicleSeries): ComparedSeries {
  const reference = series[0];
  const points = reference?.points ?? [];
  const life = Math.max(0, ...points.map((point) => point.life));
  const own = points.filter((point) => point.life === life);
  const nowKm = Math.max(odometer_km ?? 0, ...own.map((point) => point.odometer_km));
  const fit = reference?.fits.find((one) => one.life === life);
  return {
    vehicle,
    limitRpm: limit_rpm,
    points: own.map((point) => ({
      km: point.odometer_km - nowKm,
      slipRpm: point.slip_rpm,
      weight: point.weight,
    })),
    bendKm: fit?.onset_km == null ? null : fit.onset_km.estimate - nowKm,
    line: (fit?.line ?? []).map(([km, rpm]) => [km - nowKm, rpm]),
  };
}

const leastSpanKm = 10_000;
const mostSpanKm = 60_000;
/** Some of the healthy level before the rise belongs into the picture. */
const beforeBend = 1.3;

/** How far back the common axis reaches: to before the longest of the rises, within bounds. */
export const spanOf = (all: readonly ComparedSeries[]): number =>
  Math.min(
    mostSpanKm,
    Math.max(leastSpanKm, ...all.map(({ bendKm }) => (bendKm === null ? 0 : -bendKm * beforeBend))),
  );
