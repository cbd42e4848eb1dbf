import { describe, expect, it } from 'vitest';
import { fieldUnits } from '#server/contract/field-units.ts';
import type { FileUnit, MappedField } from '#server/contract/mappings.ts';
import { createFigureReader } from './read-figure.ts';
import { toOwnUnit } from './to-own-unit.ts';
import { unitOf } from './unit-words.ts';

const read = (field: MappedField, unit: FileUnit | null, decimal: '.' | ',') =>
  createFigureReader(fieldUnits[field], unit, decimal);

describe('a figure in a cell', () => {
  it.each([
    ['12.5', '.', 12.5],
    ['-12', '.', -12],
    ['−12', '.', -12],
    ['+.5', '.', 0.5],
    ['1,234.5', '.', 1234.5],
    ["1'234.5", '.', 1234.5],
    ['1 234', '.', 1234],
    ['1e3', '.', 1000],
    ['12,5', ',', 12.5],
    ['1.234,5', ',', 1234.5],
    ['0,850', ',', 0.85],
    ['1\u00a0234,5', ',', 1234.5],
    ['1.234.567', ',', 1_234_567],
    ['2124RPM', '.', 2124],
    ['2124 1/min', '.', 2124],
    ['35 r/s', '.', 2100],
  ] as const)('%s with a decimal %s is %d', (cell, decimal, value) =>
    expect(read('engine_rpm', null, decimal)(cell)).toBe(value),
  );

  it.each([
    ['12,5', '.', 'is not a number with a decimal point'],
    ['1,2345', '.', 'is not a number with a decimal point'],
    ['12.5', ',', 'is not a number with a decimal comma'],
    ['0,850', '.', 'is not a number with a decimal point'],
    ['0.850', ',', 'is not a number with a decimal comma'],
    ['12 bar', '.', "has the unit 'bar', which is not known"],
    ['12 km/h', '.', 'is in km/h, which is no unit of this field'],
    ['twelve', '.', 'is not a number'],
    ['', '.', 'is not a number'],
    ['-', '.', 'is not a number'],
    ['1e999', '.', 'is not a number'],
    ['12!', '.', 'is not a number'],
  ] as const)('%s with a decimal %s: %s', (cell, decimal, message) =>
    expect(read('engine_rpm', null, decimal)(cell)).toBe(message),
  );

  it('goes by the unit in the cell before the mapped one', () => {
    const fluid = read('fluid_c', 'degF', '.');
    expect(fluid('212')).toBe(100);
    expect(fluid('93 °C')).toBe(93);
    expect(fluid('373.15 K')).toBeCloseTo(100, 10);
  });
});

// NIST SP 811, appendix B.8 and table 6: 1 mi = 1609.344 m, t/degC = (t/degF - 32)/1.8 = T/K - 273.15.
it.each([
  [1, 'mi', 1.609344],
  [1500, 'm', 1.5],
  [10, 'rps', 600],
  [0.85, 'ratio', 85],
  [212, 'degF', 100],
  [0, 'K', -273.15],
  [60, 'mph', 96.56064],
  [10, 'm/s', 36],
  [1500, 'ms', 1.5],
  [2, 'min', 120],
  [5, 'km', 5],
] as const)('%d %s are %d in our unit', (value, unit, own) =>
  expect(toOwnUnit(value, unit)).toBeCloseTo(own, 9),
);

it.each([
  ['°C', 'degC'],
  ['º F', 'degF'],
  ['Deg. C', 'degC'],
  ['min⁻¹', 'rpm'],
  ['U/min', 'rpm'],
  ['tr/min', 'rpm'],
  ['KM/H', 'km/h'],
  ['℃', 'degC'],
  ['percent', '%'],
  ['bar', undefined],
])('the unit %s', (text, unit) => expect(unitOf(text)).toBe(unit));
