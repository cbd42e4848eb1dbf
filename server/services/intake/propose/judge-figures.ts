import { fieldUnits } from '#server/contract/field-units.ts';
import type { FileUnit, MappedField } from '#server/contract/mappings.ts';
import { toOwnUnit } from '#server/services/intake/mapped/to-own-unit.ts';
import { type DescribedFigures, quantileOf } from './describe-figures.ts';

/** Bounds that a reading's fields have in our units (server/contract/readings.ts). */
const bounds: Partial<Record<MappedField, readonly [number, number]>> = {
  odometer_km: [0, 5_000_000],
  slip_rpm: [-6000, 6000],
  engine_rpm: [0, 8000],
  turbine_rpm: [0, 8000],
  duty_pct: [0, 100],
  fluid_c: [-60, 250],
  load_pct: [0, 130],
  torque_pct: [-125, 130],
  throttle_pct: [0, 110],
  speed_kmh: [0, 200],
  gear: [-4, 32],
  seconds: [0, 86_400],
};
const LEAST_NUMBERS = 0.5;
const LEAST_WITHIN = 0.8;
const HOT_C = 150;

/** A unit to read the figures in, null for that in the cells or none; or why they cannot be of this field. */
export type Judged = { unit: FileUnit | null; doubts: string[] } | { cannot: string };

/** Holds the figures of a column against the field that its name says. `named`: the unit in its name. */
export function judgeFigures(field: MappedField, named: FileUnit | null, figures: DescribedFigures): Judged {
  const fits = fieldUnits[field];
  if (figures.values.length === 0) return { cannot: 'its cells are empty' };
  if (figures.share < LEAST_NUMBERS) return { cannot: 'its cells are no figures' };
  const [written] = figures.units;
  if (written !== undefined) {
    if (!fits.includes(written)) return { cannot: `its cells are in ${written}` };
    return isWithin(field, written, figures) ? { unit: null, doubts: [] } : cannotBe(field, written);
  }
  if (named !== null && fits.length > 0 && !fits.includes(named))
    return { cannot: `its name says that it is in ${named}` };
  const unit = fits.length === 0 ? null : (named ?? guessUnit(field, figures));
  if (!isWithin(field, unit, figures)) {
    if (field === 'odometer_km' && named === null && isWithin(field, 'm', figures))
      return { unit: 'm', doubts: ['has no unit; figures so high are taken as metres'] };
    return cannotBe(field, unit);
  }
  const doubts = doubtUnit(field, unit, figures);
  if (named === null) doubts.push(...sayGuessed(field, unit));
  if (unit === '%' && isUpToOne(figures))
    return { unit: 'ratio', doubts: ['has figures up to 1 only, taken as a ratio, where 1 is 100 %'] };
  return { unit, doubts };
}

/** What in the figures speaks against the unit that somebody has chosen. */
export function doubtUnit(field: MappedField, unit: FileUnit | null, figures: DescribedFigures): string[] {
  if (figures.units.length > 0 || figures.values.length === 0) return [];
  const doubts: string[] = [];
  const high = quantileOf(figures.values, 0.95);
  if (field === 'fluid_c' && toOwnUnit(high, unit) > HOT_C)
    doubts.push('has temperatures above 150 °C; they may be in degF');
  if (unit === '%' && isUpToOne(figures)) doubts.push('has figures up to 1 only; they may be a ratio');
  return doubts;
}

function guessUnit(field: MappedField, { values }: DescribedFigures): FileUnit | null {
  const high = quantileOf(values, 0.95);
  if (field === 'fluid_c' && (values[0] ?? 0) > 220) return 'K';
  if (field === 'fluid_c' && high > HOT_C) return 'degF';
  if (field === 'seconds' && quantileOf(values, 0.5) >= 1000) return 'ms';
  return fieldUnits[field][0] ?? null;
}

function sayGuessed(field: MappedField, unit: FileUnit | null): string[] {
  if (unit === null || !['odometer_km', 'fluid_c', 'speed_kmh', 'seconds'].includes(field)) return [];
  const other = fieldUnits[field].find((one) => one !== unit) ?? '';
  return [`has no unit; its figures are taken as ${unit}, and may be in ${unit === 'K' ? 'degF' : other}`];
}

const isUpToOne = ({ values }: DescribedFigures): boolean =>
  (values.at(-1) ?? 2) <= 1 && (values[0] ?? -1) >= 0 && values.some((value) => value % 1 !== 0);

function isWithin(field: MappedField, unit: FileUnit | null, { values }: DescribedFigures): boolean {
  const [low, high] = bounds[field] ?? [-Infinity, Infinity];
  const within = values.filter((value) => {
    const own = toOwnUnit(value, unit);
    return own >= low && own <= high && (field !== 'gear' || own % 1 === 0);
  });
  return within.length >= LEAST_WITHIN * values.length;
}

const cannotBe = (field: MappedField, unit: FileUnit | null): Judged => ({
  cannot: `its figures cannot be ${field}${unit === null ? '' : ` in ${unit}`}`,
});
