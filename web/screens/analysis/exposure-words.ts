import type { CoxTerm, Exposure } from '#server/contract/lives.ts';
import { kmFromMiles } from '#server/contract/units.ts';
import type { RatioRow } from '#web/charts/hazard-ratio-option.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatTemperature, temperatureUnit } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import { withUnit } from '#web/format/with-unit.ts';

interface ExposureWords {
  /** how many of the reader's unit one of the stored unit is */
  perStored: (units: Units) => number;
  sayMore: (step: string, units: Units) => string;
  sayLevel: (value: number, units: Units) => string;
}

const one = () => 1;
const share = (pct: number) => formatPercent(pct / 100);
const figure = (value: number): string => String(Number(value.toPrecision(2)));

const words: Record<Exposure, ExposureWords> = {
  fluid_c: {
    perStored: ({ temperature }) => (temperature === 'F' ? 1.8 : 1),
    sayMore: (step, units) => `${withUnit(step, temperatureUnit(units))} hotter fluid`,
    sayLevel: (value, units) => formatTemperature(value, units),
  },
  hot_pct: {
    perStored: one,
    sayMore: (step) => `${withUnit(step, '%')} more of the time with hot fluid`,
    sayLevel: share,
  },
  load_pct: {
    perStored: one,
    sayMore: (step) => `${withUnit(step, '%')} more load`,
    sayLevel: (value) => withUnit(String(Math.round(value)), '%'),
  },
  partial_lockup_pct: {
    perStored: one,
    sayMore: (step) => `${withUnit(step, '%')} more of the time in partial lockup`,
    sayLevel: share,
  },
  heat_mj_per_1000km: {
    perStored: ({ distance }) => (distance === 'mi' ? kmFromMiles(1) : 1),
    sayMore: (step, { distance }) =>
      `${withUnit(step, 'MJ')} more clutch heat per ${withUnit('1,000', distance)}`,
    sayLevel: (value, { distance }) =>
      `${withUnit(figure(distance === 'mi' ? kmFromMiles(value) : value), 'MJ')} per ${withUnit('1,000', distance)}`,
  },
};

const isKnown = (name: string): name is Exposure => Object.hasOwn(words, name);

export const sayExposureLevel = (exposure: Exposure, value: number, units: Units): string =>
  words[exposure].sayLevel(value, units);

/** A round step near what two lives usually differ by, in the reader's unit. */
function roundStep(size: number): number {
  if (!(size > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(size));
  return [5, 2, 1].map((digit) => digit * power).find((step) => step <= size * 1.15) ?? power;
}

/** How many times as often they fail for one usual step of the exposure; without units it is a column of somebody's table. */
export function readRatio({ name, coef, low, high, sd, p }: CoxTerm, units: Units | null): RatioRow {
  const known = units !== null && isKnown(name) ? words[name] : null;
  const perStored = known === null || units === null ? 1 : known.perStored(units);
  const step = roundStep(sd * perStored);
  const stored = step / perStored;
  const shown = String(Number(step.toPrecision(3)));
  return {
    name: known === null || units === null ? `${name}, ${shown} more` : known.sayMore(shown, units),
    ratio: Math.exp(coef * stored),
    low: low ** stored,
    high: high ** stored,
    p,
  };
}

/** Always as many digits, so that figures compare by eye. */
const sayTimes = (ratio: number): string => ratio.toFixed(ratio < 100 ? 2 : 0);

/** '10 °C hotter fluid: fails 1.65 times as often (1.12 to 2.30)' */
export function sayRatio({ name, ratio, low, high }: RatioRow): string {
  const tells = low > 1 || high < 1;
  const bounds = `${sayTimes(ratio)} times as often (${sayTimes(low)} to ${sayTimes(high)})`;
  return tells ? `${name}: fails ${bounds}` : `${name}: no difference can be told, ${bounds}`;
}
