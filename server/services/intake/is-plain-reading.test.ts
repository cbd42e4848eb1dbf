import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readingInput, toReading } from '#server/contract/readings.ts';
import { isPlainReading } from './is-plain-reading.ts';

const full = {
  vehicle: 'B-1207',
  at: '2026-03-04T05:06:07.250Z',
  odometer_km: 120_345.5,
  slip_rpm: 18.25,
  duty_pct: 85,
  fluid_c: 84.5,
  load_pct: 50,
  torque_pct: 40,
  throttle_pct: 30,
  speed_kmh: 62,
  gear: 4,
  shifting: false,
  seconds: 10,
};

const number = fc.oneof(
  fc.double(),
  fc.integer({ min: -7000, max: 9000 }),
  fc.constantFrom(0, -0, 100, 250, -60, 5_000_000, 8000, -6000, 130, 1.5, 32, -4),
);
const anything = fc.oneof(
  number,
  fc.string(),
  fc.boolean(),
  fc.constantFrom(null, undefined, [], {}, ['P0741'], '7'),
);
const pad = (n: number, width = 2) => String(n).padStart(width, '0');
const time = fc.oneof(
  fc
    .tuple(
      fc.nat(9999),
      fc.nat(13),
      fc.nat(32),
      fc.nat(24),
      fc.nat(60),
      fc.nat(60),
      fc.constantFrom('', '.1', '.123456'),
      fc.constantFrom('Z', '+01:00', ''),
    )
    .map(
      ([y, m, d, h, min, s, fraction, zone]) =>
        `${pad(y, 4)}-${pad(m)}-${pad(d)}T${pad(h)}:${pad(min)}:${pad(s)}${fraction}${zone}`,
    ),
  fc.string(),
);
const text = fc.oneof(fc.string({ maxLength: 70 }), fc.string({ unit: 'binary', maxLength: 5 }));

const fields: Record<string, fc.Arbitrary<unknown>> = Object.fromEntries(
  Object.keys(readingInput.shape).map((field) => [field, fc.oneof(number, anything)]),
);
/** A good reading with some fields replaced, dropped or added. */
const candidate = fc
  .tuple(
    fc.record(
      { ...fields, vehicle: fc.oneof(text, anything), at: fc.oneof(time, anything) },
      { requiredKeys: [] },
    ),
    fc.subarray(Object.keys(full)),
  )
  .map(([changes, dropped]) => {
    const value: Record<string, unknown> = { ...full, ...changes };
    for (const field of dropped) if (!(field in changes)) delete value[field];
    return value;
  });
/** One field replaced: near enough to a good reading to be accepted often. */
const nearlyGood = fc
  .constantFrom(...Object.keys(fields))
  .chain((field) =>
    fc
      .oneof(fields[field] ?? anything, field === 'at' ? time : number, field === 'vehicle' ? text : number)
      .map((value) => ({ ...full, [field]: value })),
  );

describe('a value that is taken without asking the schema', () => {
  it('is accepted by the schema, which changes nothing of it', () => {
    let plain = 0;
    fc.assert(
      fc.property(fc.oneof(candidate, nearlyGood), (value) => {
        if (!isPlainReading(value)) return;
        plain += 1;
        const parsed = readingInput.safeParse(value);
        expect(parsed.success).toBe(true);
        if (parsed.success) expect(toReading(value)).toEqual(toReading(parsed.data));
      }),
      { numRuns: 20_000, seed: 1207 },
    );
    expect(plain).toBeGreaterThan(1000);
  });

  it('is the ordinary reading in metric and other units', () => {
    expect(isPlainReading(full)).toBe(true);
    const { odometer_km: _, fluid_c: __, speed_kmh: ___, ...rest } = full;
    expect(isPlainReading({ ...rest, odometer_mi: 1, fluid_f: 180, speed_mph: 40, codes: [] })).toBe(true);
  });

  it('is a reading with nothing but what is needed', () => {
    const { vehicle, at, odometer_km, slip_rpm, duty_pct } = full;
    const least = { vehicle, at, odometer_km, slip_rpm, duty_pct };
    expect(isPlainReading(least)).toBe(true);
    for (const field of Object.keys(least))
      expect(isPlainReading({ ...least, [field]: undefined }), field).toBe(false);
  });

  it.each([
    ['the lowest slip', { slip_rpm: -6000 }, true],
    ['less than the lowest slip', { slip_rpm: -6000.1 }, false],
    ['the highest gear', { gear: 32 }, true],
    ['a gear above', { gear: 33 }, false],
    ['both temperatures', { fluid_f: 180 }, false],
    ['both odometers', { odometer_mi: 1 }, false],
    ['NaN', { slip_rpm: Number.NaN }, false],
    ['Infinity', { load_pct: Number.POSITIVE_INFINITY }, false],
  ])('keeps the bounds of the schema: %s', (_, changes, plain) => {
    const value = { ...full, ...changes };
    expect(isPlainReading(value)).toBe(plain);
    expect(readingInput.safeParse(value).success).toBe(plain);
  });
});
