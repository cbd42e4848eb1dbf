import type { FileUnit } from '#server/contract/mappings.ts';
import { celsiusFromFahrenheit, kmFromMiles } from '#server/contract/units.ts';

/** From a unit of a file to ours; a unit that is not here is ours. 0 degC is 273.15 K (NIST SP 811, table 6). */
const converted: Partial<Record<FileUnit, (value: number) => number>> = {
  mi: kmFromMiles,
  m: (value) => value / 1000,
  rps: (value) => value * 60,
  ratio: (value) => value * 100,
  degF: celsiusFromFahrenheit,
  K: (value) => value - 273.15,
  mph: kmFromMiles,
  'm/s': (value) => value * 3.6,
  ms: (value) => value / 1000,
  min: (value) => value * 60,
};

export const toOwnUnit = (value: number, unit: FileUnit | null): number =>
  (unit === null ? undefined : converted[unit])?.(value) ?? value;
