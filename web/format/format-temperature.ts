import { fahrenheitFromCelsius } from '#server/contract/units.ts';
import { formatWhole, noFigure } from './format-number.ts';
import type { Units } from './units.ts';
import { withUnit } from './with-unit.ts';

export const toReaderTemperature = (celsius: number, units: Units): number =>
  units.temperature === 'F' ? fahrenheitFromCelsius(celsius) : celsius;

export const temperatureUnit = (units: Units): string => `°${units.temperature}`;

export const formatTemperature = (celsius: number | null | undefined, units: Units): string =>
  celsius == null
    ? noFigure
    : withUnit(formatWhole(toReaderTemperature(celsius, units)), temperatureUnit(units));
