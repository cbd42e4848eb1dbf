import type { AtlasPlane } from '#server/contract/atlas.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { temperatureUnit, toReaderTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import type { AtlasAxis } from './atlas-plot.ts';
import type { NumbersTable } from './numbers.ts';

/** The quantiles of each step, and below them the stretches of the vehicle on top, the newest first. */
export function listAtlasNumbers(
  { axis, plane, vehicle }: { axis: AtlasAxis; plane: AtlasPlane; vehicle: string | null },
  units: Units,
): NumbersTable[] {
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  const shown = (x: number) => (axis === 'fluid' ? toReaderTemperature(x, units) : x);
  const name = axis === 'fluid' ? `fluid ${temperatureUnit(units)}` : 'command %';
  const half = ((plane.x_edges[1] ?? 0) - (plane.x_edges[0] ?? 0)) / 2;
  const platform: NumbersTable = {
    caption: `Slip of the platform by ${axis === 'fluid' ? 'fluid temperature' : 'command'}, rpm`,
    columns: [
      { title: name, kind: 'word' },
      ...['5 %', '25 %', 'middle', '75 %', '95 %', 'readings', 'vehicles'].map(figure),
    ],
    rows: plane.quantiles.map(({ x, p05, p25, p50, p75, p95, n, vehicles }) => [
      `${formatWhole(shown(x - half))} to ${formatWhole(shown(x + half))}`,
      ...[p05, p25, p50, p75, p95].map(formatTenths),
      formatWhole(n),
      formatWhole(vehicles),
    ]),
  };
  if (vehicle === null || plane.vehicle === null || plane.vehicle.length === 0) return [platform];
  const own: NumbersTable = {
    caption: `Stretches of ${vehicle}`,
    columns: [
      { title: 'until', kind: 'word' },
      figure(`odometer ${units.distance}`),
      figure(name),
      figure('slip rpm'),
      figure('readings'),
    ],
    rows: plane.vehicle
      .toReversed()
      .map((one) => [
        one.at.slice(0, 10),
        formatWhole(toReaderDistance(one.odometer_km, units)),
        formatTenths(shown(one.x)),
        formatTenths(one.slip_rpm),
        formatWhole(one.n),
      ]),
  };
  return [platform, own];
}
