import { expect, it } from 'vitest';
import { createLineRule } from './apply-line-rule.ts';

const read = createLineRule({ kind: 'unit', field: 'slip_rpm', unit: 'rps' });
const inBerlin = createLineRule({ kind: 'zone', zone: 'Europe/Berlin' });
const timeOf = (at: unknown) => inBerlin({ line: 1, raw: '', value: { at }, errors: null }).value;

it.each(['2026-03-04 05:06:07', '20260304 050607', '4 Mar 2026 05:06:07'])(
  'a rule of zones reads %s',
  (text) => {
    expect(timeOf(text)).toEqual({ at: '2026-03-04T04:06:07.000Z' });
  },
);

it.each(['04.03.26 05:06:07', '04.03.26 05:06:07.1234', '04.03.2026 05:06:07'])(
  'a rule of zones leaves %s, whose order is not known',
  (text) => {
    expect(timeOf(text)).toEqual({ at: text });
  },
);

const slipOf = (slip: unknown) => read({ line: 1, raw: '', value: { slip_rpm: slip }, errors: null }).value;

it.each([
  ['2 1/min', 120],
  ['1,5 rpm', 90],
  ['0,850', 51],
  ['1,2500', 75],
  ['1,250', 75_000],
  ['1.5', 90],
])('a rule of units reads %s', (text, rpm) => {
  expect(slipOf(text)).toEqual({ slip_rpm: rpm });
});

it.each(['12 34', '1.5,3', '0.850.1', 'none'])('a rule of units leaves %s as it is, whole', (text) => {
  expect(slipOf(text)).toEqual({ slip_rpm: text });
});
