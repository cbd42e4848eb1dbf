import type { FileUnit, Mapping } from '#server/contract/mappings.ts';
import { toOwnUnit } from './to-own-unit.ts';
import { unitOf } from './unit-words.ts';

type Decimal = Mapping['decimal'];

const PLAIN = { '.': /^-?\d+(?:\.\d+)?$/, ',': /^-?\d+(?:,\d+)?$/ };
/** Sign, whole part with or without thousands parted (0,850 has none), decimals, exponent, and what stands behind. */
const FULL = {
  '.': /^([+\-−]?)\s?([1-9]\d{0,2}(?:[,'’ \u00a0\u202f]\d{3})+(?!\d)|\d+|)(?:\.(\d*))?(e[+-]?\d+)?(.*)$/is,
  ',': /^([+\-−]?)\s?([1-9]\d{0,2}(?:[.'’ \u00a0\u202f]\d{3})+(?!\d)|\d+|)(?:,(\d*))?(e[+-]?\d+)?(.*)$/is,
};
const UNITS_KEPT = 200;

export interface Figure {
  value: number;
  /** as it is written behind the number; empty where nothing is */
  behind: string;
}

/** The number that a cell begins with, and what is written behind it; null where it begins with none. */
export function cutFigure(cell: string, decimal: Decimal): Figure | null {
  if (PLAIN[decimal].test(cell))
    return { value: Number(decimal === '.' ? cell : cell.replace(',', '.')), behind: '' };
  const [, sign = '', whole = '', part = '', exponent = '', behind = ''] = FULL[decimal].exec(cell) ?? [];
  if (whole === '' && part === '') return null;
  const value = Number(`${whole.replaceAll(/\D/g, '') || '0'}.${part || '0'}${exponent}`);
  return { value: sign === '' || sign === '+' ? value : -value, behind: behind.trim() };
}

/**
 * Reads the cells of a column as figures in our own unit; a text says what is wrong. A unit in the cell goes before the
 * mapped one.
 */
export function createFigureReader(
  fits: readonly FileUnit[],
  mapped: FileUnit | null,
  decimal: Decimal,
): (cell: string) => number | string {
  const units = new Map<string, FileUnit | string>();
  const toUnit = (behind: string): FileUnit | string => {
    const known = units.get(behind);
    if (known !== undefined) return known;
    const unit = nameUnit(behind, fits, decimal);
    if (units.size < UNITS_KEPT) units.set(behind, unit);
    return unit;
  };
  const plain = PLAIN[decimal];
  return (cell) => {
    if (plain.test(cell)) return toOwnUnit(Number(decimal === '.' ? cell : cell.replace(',', '.')), mapped);
    const figure = cutFigure(cell, decimal);
    if (figure === null || !Number.isFinite(figure.value)) return 'is not a number';
    if (figure.behind === '') return toOwnUnit(figure.value, mapped);
    const unit = toUnit(figure.behind);
    return fits.includes(unit as FileUnit) ? toOwnUnit(figure.value, unit as FileUnit) : unit;
  };
}

function nameUnit(behind: string, fits: readonly FileUnit[], decimal: Decimal): FileUnit | string {
  const unit = unitOf(behind);
  if (unit !== undefined) return fits.includes(unit) ? unit : `is in ${unit}, which is no unit of this field`;
  // '1/min' begins with a digit and is a unit; what else does is the rest of a number.
  if (/^[.,'’]?\d/.test(behind))
    return `is not a number with a decimal ${decimal === '.' ? 'point' : 'comma'}`;
  if (/^[\p{L}°º%/]/u.test(behind)) return `has the unit '${behind.slice(0, 20)}', which is not known`;
  return 'is not a number';
}
