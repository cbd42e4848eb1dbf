import type { ReadingInput } from '#server/contract/readings.ts';
import { seededRandom } from './seeded-random.ts';

export interface PlainVehicle {
  unit: string;
  firstKm: number;
  kmPerDay: number;
  /** slip at the usual conditions on a day, rpm */
  slipOn: (day: number) => number;
  /** from this day on the instrument shows so many km less */
  odometerChange?: { day: number; lessKm: number };
}

const DAY_MS = 86_400_000;
const duties = [62, 74, 81, 86, 92, 97];

/**
 * Readings of vehicles whose slip is written down day by day, six on each day but Sundays, in order of time; noise of
 * 3 rpm, one in 100 a glitch, one in 20 while shifting or cold. No formula of the engine or of the demo fleet.
 */
export function drivePlainly(
  vehicles: readonly PlainVehicle[],
  start: Date,
  days: number,
  seed: number,
): ReadingInput[] {
  const readings = vehicles.flatMap((vehicle, i) => {
    const { uniform, normal } = seededRandom(seed + i);
    return Array.from({ length: days }, (_, day) =>
      day % 7 === 6
        ? []
        : duties.map((duty, n): ReadingInput => {
            const at = new Date(start.getTime() + day * DAY_MS + (6 + 2 * n) * 3_600_000 + i * 1000);
            const changed = vehicle.odometerChange;
            const lessKm = changed !== undefined && day >= changed.day ? changed.lessKm : 0;
            const load = 50 + 10 * normal();
            const fluid = uniform() < 0.03 ? 40 : 85 + 5 * normal();
            const slip = vehicle.slipOn(day) * (load / 50) * (1.4 - duty / 215) + 3 * normal();
            return {
              vehicle: vehicle.unit,
              at: at.toISOString(),
              odometer_km: round(vehicle.firstKm + (day + n / 6) * vehicle.kmPerDay - lessKm),
              slip_rpm: round(uniform() < 0.01 ? slip + 400 : slip),
              duty_pct: Math.min(100, round(duty + normal())),
              fluid_c: round(fluid),
              load_pct: Math.max(0, Math.min(100, Math.round(load))),
              ...(uniform() < 0.02 ? { shifting: true } : {}),
            };
          }),
    ).flat();
  });
  return readings.sort((a, b) => Date.parse(a.at) - Date.parse(b.at));
}

const round = (value: number): number => Math.round(value * 10) / 10;
