import { kmFromMiles } from '#server/contract/units.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { formatLifeRange } from '#web/format/format-life.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';

/** What lives are measured in: mileage of the converter, or the unit of any data. */
export interface UseAxis {
  /** one of the reader's unit in that of the data */
  one: number;
  title: string;
  /** unit in the head of a table */
  unit: string;
  sayTick: (x: number, step: number) => string;
  /** where something was seen, exactly */
  sayExact: (x: number) => string;
  /** an estimate, to two figures */
  sayEstimate: (x: number) => string;
  /** an interval of estimates */
  sayRange: (low: number, high: number) => string;
}

export const mileageAxis = (units: Units): UseAxis => ({
  one: units.distance === 'mi' ? kmFromMiles(1) : 1,
  title: `mileage of the converter, thousand ${units.distance}`,
  unit: units.distance,
  sayTick: (shown, step) =>
    step >= 1000 ? formatWhole(shown / 1000) : (shown / 1000).toFixed(step >= 100 ? 1 : 2),
  sayExact: (x) => formatOdometer(x, units),
  sayEstimate: (x) => formatKm(x, units),
  sayRange: (low, high) => formatLifeRange(low, high, units),
});

/** Data in a unit of their own; ticks and figures as they come. */
export const plainAxis = (title: string): UseAxis => ({
  one: 1,
  title,
  unit: title,
  sayTick: (shown) => sayPlain(shown),
  sayExact: sayPlain,
  sayEstimate: sayRounded,
  sayRange: (low, high) => `${sayRounded(low)} to ${sayRounded(high)}`,
});

const sayRounded = (x: number): string => sayPlain(Number(x.toPrecision(3)));

const sayPlain = (x: number): string =>
  Number.isInteger(x) && Math.abs(x) < 1e12 ? formatWhole(x) : String(Number(x.toPrecision(4)));
