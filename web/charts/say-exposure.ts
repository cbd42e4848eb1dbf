import { kmFromMiles } from '#server/contract/units.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import { withUnit } from '#web/format/with-unit.ts';

type Exposure = VehicleSeries['exposure'];

/** A figure of this vehicle, and how it stands to what is usual on its platform. */
export interface ExposureLine {
  name: string;
  own: string;
  per: string;
  beside: string | null;
}

/** So near to the usual that it is the usual. */
const about = 1.1;

/** 'twice the platform's usual' in figures: '2.0 times', '0.6 times', or about the same. */
function sayTimes(own: number, usual: number): string {
  const times = own / usual;
  if (times < about && times > 1 / about) return 'about the platform’s usual';
  return `${times >= 10 ? formatWhole(times) : formatTenths(times)} times the platform’s usual`;
}

/** Clutch heat, where torque and speed are known. */
export function sayHeat(
  { clutch_heat_mj_per_1000km: heat, platform }: Exposure,
  units: Units,
): ExposureLine | null {
  if (heat === null) return null;
  const inReaders = (perKm: number) => formatTenths(units.distance === 'mi' ? kmFromMiles(perKm) : perKm);
  const usual = platform?.clutch_heat_mj_per_1000km ?? null;
  return {
    name: 'Clutch heat',
    own: withUnit(inReaders(heat), 'MJ'),
    per: `per ${withUnit('1,000', units.distance)}`,
    beside:
      usual === null || usual <= 0
        ? null
        : `${sayTimes(heat, usual)} of ${withUnit(inReaders(usual), 'MJ')} (median of ${platform?.heat_vehicles} vehicles)`,
  };
}

/** Share of readings with hot fluid. */
export function sayHot(
  { hot_share: share, hot_from_c, platform }: Exposure,
  units: Units,
): ExposureLine | null {
  if (share === null) return null;
  const usual = platform?.hot_share ?? null;
  return {
    name: `Fluid at ${formatTemperature(hot_from_c, units)} or more`,
    own: formatPercent(share),
    per: 'of the readings',
    beside:
      usual === null
        ? null
        : `the platform’s usual is ${formatPercent(usual)} (median of ${platform?.hot_vehicles} vehicles)`,
  };
}
