import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { temperatureUnit, toReaderTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import type { Shares } from './draw-shares.ts';

type Exposed = Pick<VehicleSeries, 'exposure' | 'reference'>;

export function shareOfFluid({ exposure, reference }: Exposed, units: Units): Shares {
  const degrees = (value: number | null) =>
    value === null ? null : Math.round(toReaderTemperature(value, units));
  return {
    bins: (exposure.fluid_c ?? []).map((bin) => ({ ...bin, from: degrees(bin.from), to: degrees(bin.to) })),
    unit: `fluid, ${temperatureUnit(units)}`,
    reference: toReaderTemperature(reference.fluid_c, units),
  };
}

export const shareOfLoad = ({ exposure, reference }: Exposed): Shares => ({
  bins: exposure.load_pct ?? [],
  unit: 'load, %',
  reference: reference.load_pct,
});
