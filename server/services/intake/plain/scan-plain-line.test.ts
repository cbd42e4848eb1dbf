import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ReadingColumns } from '#db/queries/reading-columns.ts';
import { readingFields } from '#server/contract/readings.ts';
import { checkReading } from '#server/services/intake/check-reading.ts';
import { createPlainRows } from './plain-rows.ts';

const nowMs = Date.UTC(2026, 6, 1);

/** What a line becomes by way of JSON.parse and the schema; null where it is refused or has a field that is none of ours. */
function readUsually(text: string): ReadingColumns | null {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return null;
  }
  const { reading } = checkReading(value, nowMs);
  if (reading === null || Object.keys(value as object).some((name) => !readingFields.includes(name)))
    return null;
  const columns = new ReadingColumns();
  columns.push(reading.vehicle, reading, 7);
  return columns;
}

function readPlainly(text: string): ReadingColumns | null {
  const columns = new ReadingColumns();
  const rows = createPlainRows(
    () => nowMs,
    () => columns,
  );
  // Bytes of other lines on both sides must not matter.
  const bytes = Buffer.from(`{"a":1}\n${text}\n{"b":2}`);
  const length = Buffer.byteLength(text);
  const isTaken = rows.take(bytes, 8, 8 + length, 7);
  const block = rows.finishBlock();
  expect(block).toEqual(isTaken ? { count: 1, firstLine: 7, lastLine: 7 } : null);
  expect(columns.length).toBe(Number(isTaken));
  return isTaken ? columns : null;
}

const facts = ({ units, unit, atMs, reals, gear, shifting, line, codes, length }: ReadingColumns) => ({
  unit: units[unit[0] ?? -1],
  atMs: atMs[0],
  reals: [...reals.subarray(0, 9)],
  gear: gear[0],
  shifting: shifting[0],
  line: line[0],
  codes: [...codes],
  length,
});

const plain = {
  vehicle: 'B-1207',
  at: '2026-03-04T05:06:07Z',
  odometer_km: 123456.7,
  slip_rpm: -3.25,
  duty_pct: 85,
};

describe('a plain line', () => {
  it.each([
    plain,
    { ...plain, at: '2024-02-29T23:59:59.9Z', fluid_f: 181.4, speed_mph: 51, gear: -1, shifting: true },
    {
      ...plain,
      at: '2026-03-04T05:06:07.250Z',
      fluid_c: 85.5,
      load_pct: 0,
      torque_pct: -12,
      throttle_pct: 1e2,
    },
    { ...plain, engine_rpm: 1400, turbine_rpm: 1390.5, seconds: 10, shifting: false, codes: [] },
    { ...plain, odometer_km: undefined, odometer_mi: 76_713.12, vehicle: 'Bus 7 (east)' },
  ])('is taken, and becomes what the schema makes of it: %j', (value) => {
    for (const text of [JSON.stringify(value), `${JSON.stringify(value)}\r`, spaced(value)]) {
      const usual = readUsually(text);
      expect(usual).not.toBeNull();
      expect(facts(readPlainly(text) as ReadingColumns)).toEqual(facts(usual as ReadingColumns));
    }
  });

  it('is taken as the schema would, or left to it, whatever is written', () => {
    const number = fc.oneof(
      fc.double({ min: -200, max: 200, noNaN: true }).map((value) => String(Math.round(value * 1000) / 1000)),
      fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
      fc.constantFrom(
        '0',
        '-0',
        '-0.0',
        '00',
        '01',
        '1.',
        '.5',
        '-',
        '1e3',
        '1E-2',
        '85',
        '0.1',
        '123456789012345',
        '1234567890123456',
        '0.30000000000000004',
        'null',
        '"85"',
        'NaN',
        '85 ',
        ' 85',
      ),
    );
    const time = fc.oneof(
      fc
        .date({ min: new Date(Date.UTC(1985, 0)), max: new Date(Date.UTC(2027, 0)), noInvalidDate: true })
        .map((at) => `"${at.toISOString()}"`),
      fc.constantFrom(
        '"2026-02-29T00:00:00Z"',
        '"2026-02-28T24:00:00Z"',
        '"2026-06-30T23:59:60Z"',
        '"2026-03-04T05:06:07+01:00"',
        '"2026-03-04T05:06:07.1234Z"',
        '"2026-03-04t05:06:07z"',
        '"2026-13-01T00:00:00Z"',
        '"2026-03-04 05:06:07Z"',
        '"0026-03-04T05:06:07Z"',
        '"2026-0x-04T05:06:07Z"',
        '12',
      ),
    );
    const unit = fc.oneof(
      fc.string({ maxLength: 66 }).map((text) => JSON.stringify(text)),
      fc.constantFrom('"B-1"', '" B-1"', '"B-1 "', '""', '"B\\u002d1"', '"Bü"', '7', '"a\tb"'),
    );
    const writtenOf = (field: string) =>
      field === 'vehicle'
        ? unit
        : field === 'at'
          ? time
          : field === 'shifting'
            ? fc.constantFrom('true', 'false', 'tru', 'null', '1')
            : field === 'codes'
              ? fc.constantFrom('[]', '["P0741"]', '[ ]', 'null')
              : number;
    const likely = ['vehicle', 'at', 'odometer_km', 'slip_rpm', 'duty_pct'];
    const member = fc
      .constantFrom(...readingFields, 'other', 'Vehicle', 'slip_rpm ')
      .chain((field) => writtenOf(field).map((value) => `"${field}":${value}`));
    const base = Object.entries(plain).map(([name, value]) => `"${name}":${JSON.stringify(value)}`);
    const line = fc
      .record({
        kept: fc.subarray(base, { minLength: likely.length - 1 }),
        more: fc.array(member, { maxLength: 4 }),
        between: fc.constantFrom(',', ', ', ' ,', ',,'),
        end: fc.constantFrom('}', '}', '}', ' }', '} ', ',}', '', '}}'),
      })
      .map(({ kept, more, between, end }) => `{${[...kept, ...more].join(between)}${end}`);
    let taken = 0;
    fc.assert(
      fc.property(line, (text) => {
        const plainly = readPlainly(text);
        if (plainly === null) return;
        taken++;
        const usual = readUsually(text);
        expect(usual).not.toBeNull();
        expect(facts(plainly)).toEqual(facts(usual as ReadingColumns));
      }),
      { numRuns: 4000, seed: 9 },
    );
    expect(taken).toBeGreaterThan(100);
  });
});

/** As other programs write JSON. */
const spaced = (value: object): string =>
  JSON.stringify(value, null, 1).replaceAll(/\n\s*/g, ' ').replaceAll('[ ]', '[]');
