import fc from 'fast-check';
import { readingFields, readingInput } from '#server/contract/readings.ts';
import { hostileText, jsonToken } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';

/** A number within bounds that the contract gives, as senders write it: whole, with a decimal, with all digits. */
const between = (min: number, max: number) =>
  fc.oneof(
    fc.integer({ min: Math.ceil(min), max: Math.floor(max) }),
    fc.integer({ min: Math.ceil(min * 10), max: Math.floor(max * 10) }).map((tenths) => tenths / 10),
    fc.double({ min, max, noNaN: true }),
  );

const unit = fc
  .oneof(
    fc.string({
      unit: fc.constantFrom('A', 'b', '7', '-', '_', '.', '/', ' ', 'é', '中', '🚌'),
      minLength: 1,
      maxLength: 12,
    }),
    fc.integer({ min: 1, max: 9999 }).map((n) => `B-${n}`),
  )
  .filter((text) => text.trim() !== '');

/** Times as senders write them, since a year. */
const momentSince = (year: number) =>
  fc
    .tuple(
      fc.date({
        min: new Date(Date.UTC(year, 0, 2)),
        max: new Date('2026-01-01T00:00:00Z'),
        noInvalidDate: true,
      }),
      fc.constantFrom('ms', 's', 'us', '+05:45', '-11:30'),
    )
    .map(([date, style]) => {
      const iso = date.toISOString();
      if (style === 's') return iso.replace(/\.\d+/, '');
      if (style === 'us') return iso.replace('Z', '250Z');
      if (style === 'ms') return iso;
      const sign = style.startsWith('-') ? -1 : 1;
      const minutes = sign * (Number(style.slice(1, 3)) * 60 + Number(style.slice(4)));
      return new Date(date.getTime() + minutes * 60_000).toISOString().replace('Z', style);
    });

const code = fc.string({ unit: fc.constantFrom('P', '0', '7', 'S', 'N', 'ü'), minLength: 1, maxLength: 10 });
const odometer = fc.oneof(
  fc.record({ odometer_km: between(0, 5_000_000) }),
  fc.record({ odometer_mi: between(0, 3_100_000) }),
);
const slip = fc.oneof(
  fc.record({ slip_rpm: between(-6000, 6000) }),
  fc.record({ engine_rpm: between(0, 8000), turbine_rpm: between(0, 8000) }),
);
const fluid = fc.oneof(
  fc.record({ fluid_c: between(-60, 250) }),
  fc.record({ fluid_f: between(-76, 482) }),
  fc.constant({}),
);
const speed = fc.oneof(
  fc.record({ speed_kmh: between(0, 200) }),
  fc.record({ speed_mph: between(0, 125) }),
  fc.constant({}),
);
const others = fc.record(
  {
    load_pct: between(0, 130),
    torque_pct: between(-125, 130),
    throttle_pct: between(0, 110),
    gear: fc.integer({ min: -4, max: 32 }),
    shifting: fc.boolean(),
    seconds: between(0, 86_400),
    codes: fc.array(code, { maxLength: 4 }),
  },
  { requiredKeys: [] },
);

export type SentReading = { vehicle: string; at: string } & Record<string, unknown>;

/**
 * A reading that must be accepted, of one of the given vehicles or of any. Storage has a part for each month, so that
 * times of many years cost more than what is under test.
 */
export const goodReading = (
  vehicle: fc.Arbitrary<string> = unit,
  sinceYear = 1990,
): fc.Arbitrary<SentReading> =>
  fc
    .tuple(
      fc.record({ vehicle, at: momentSince(sinceYear), duty_pct: between(0, 100) }),
      odometer,
      slip,
      fluid,
      speed,
      others,
    )
    .map((parts) => Object.assign({}, ...parts) as SentReading);

const field = fc.oneof(fc.constantFrom(...readingFields), hostileText);

/** A reading with one field changed, left out, added or named twice, as the text of a JSON object. */
const changedFields = (sinceYear: number) =>
  fc
    .tuple(
      goodReading(undefined, sinceYear),
      fc.array(fc.tuple(field, jsonToken), { minLength: 1, maxLength: 3 }),
      fc.constantFrom('set', 'drop', 'twice'),
    )
    .map(([reading, changes, how]) => {
      const members = new Map(Object.entries(reading).map(([name, value]) => [name, JSON.stringify(value)]));
      const twice: string[] = [];
      for (const [name, token] of changes) {
        if (how === 'drop') members.delete(name);
        else if (how === 'twice') twice.push(`${JSON.stringify(name)}:${token}`);
        else members.set(name, token);
      }
      return `{${[...[...members].map(([name, token]) => `${JSON.stringify(name)}:${token}`), ...twice].join(',')}}`;
    });

const goodLine = (sinceYear: number) =>
  goodReading(undefined, sinceYear).map((reading) => Buffer.from(JSON.stringify(reading)));

/** One JSON text of a body: good, wrong in a field, wrong in a byte, something else, or near the longest allowed. */
export const jsonLineSince = (sinceYear: number): fc.Arbitrary<Buffer> =>
  fc.oneof(
    { weight: 4, arbitrary: goodLine(sinceYear) },
    { weight: 4, arbitrary: changedFields(sinceYear).map((text) => Buffer.from(text)) },
    { weight: 3, arbitrary: mutated(goodLine(sinceYear)) },
    { weight: 1, arbitrary: jsonToken.map((text) => Buffer.from(text)) },
    {
      weight: 1,
      arbitrary: fc.constantFrom('', ' ', '\t', '{}', '[]', 'null').map((text) => Buffer.from(text)),
    },
  );

export const jsonLine = jsonLineSince(1990);

const LONG_BYTES = [65_533, 65_534, 65_535, 65_536, 65_537, 65_538, 65_540, 140_000];
/** A line that a good reading and a filling bring to a length about the longest allowed. */
export const longLine: fc.Arbitrary<Buffer> = fc
  .tuple(
    goodLine(1990),
    fc.constantFrom(...LONG_BYTES),
    fc.constantFrom(' ', 'é', '"', '\u00ff'),
    fc.constantFrom('', '\r'),
  )
  .map(([line, length, filling, end]) => {
    const fill = filling === '\u00ff' ? Buffer.from([0xff]) : Buffer.from(filling);
    const count = Math.max(0, Math.floor((length - line.length) / fill.length));
    return Buffer.concat([line, Buffer.alloc(count * fill.length, fill), Buffer.from(end)]);
  });

/** Bounds by field, for checks of what was accepted. */
export const boundsOf = (name: keyof typeof readingInput.shape): { min: number; max: number } => {
  const schema = readingInput.shape[name];
  const inner = ('unwrap' in schema ? schema.unwrap() : schema) as unknown as {
    minValue: number;
    maxValue: number;
  };
  return { min: inner.minValue, max: inner.maxValue };
};
