import type { CoxTerm, Exposure } from '#server/contract/lives.ts';
import { kmFromMiles } from '#server/contract/units.ts';
import type { RatioRow } from '#web/charts/hazard-ratio-option.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatTemperature, temperatureUnit } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';

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
    sayMore: (step, units) => `${step} ${temperatureUnit(units)} hotter fluid`,
    sayLevel: (value, units) => formatTemperature(value, units),
  },
  hot_pct: {
    perStored: one,
    sayMore: (step) => `${step} % more of the time with hot fluid`,
    sayLevel: share,
  },
  load_pct: {
    perStored: one,
    sayMore: (step) => `${step} % more load`,
    sayLevel: (value) => `${Math.round(value)} %`,
  },
  partial_lockup_pct: {
    perStored: one,
    sayMore: (step) => `${step} % more of the time in partial lockup`,
    sayLevel: share,
  },
  heat_mj_per_1000km: {
    perStored: ({ distance }) => (distance === 'mi' ? kmFromMiles(1) : 1),
    sayMore: (step, { distance }) => `${step} MJ more clutch heat per 1,000 ${distance}`,
    sayLevel: (value, { distance }) =>
      `${figure(distance === 'mi' ? kmFromMiles(value) : value)} MJ per 1,000 ${distance}`,
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

/** How many times as often converters fail for one usual step of the exposure. */
export function readRatio({ name, coef, low, high, sd, p }: CoxTerm, units: Units): RatioRow {
  const perStored = isKnown(name) ? words[name].perStored(units) : 1;
  const step = roundStep(sd * perStored);
  const stored = step / perStored;
  const shown = String(Number(step.toPrecision(3)));
  return {
    name: isKnown(name) ? words[name].sayMore(shown, units) : `${name}, ${shown} more`,
    ratio: Math.exp(coef * stored),
    low: low ** stored,
    high: high ** stored,
    p,
  };
}

/** To the tenth, or closer where a tenth would hide on which side of 1 a bound lies. */
function sayTimes(ratios: readonly number[]): string[] {
  const digits = ratios.some((ratio) => ratio !== 1 && ratio.toFixed(1) === '1.0') ? 2 : 1;
  return ratios.map((ratio) => ratio.toFixed(ratio < 10 ? digits : 0));
}

/** '10 °C hotter fluid: fails 1.6 times as often (1.1 to 2.3)' */
export function sayRatio({ name, ratio, low, high }: RatioRow): string {
  const tells = low > 1 || high < 1;
  const [middle, from, to] = sayTimes([ratio, low, high]);
  const bounds = `${middle} times as often (${from} to ${to})`;
  return tells ? `${name}: fails ${bounds}` : `${name}: no difference can be told, ${bounds}`;
}
