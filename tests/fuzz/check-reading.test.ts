import fc from 'fast-check';
import { it } from 'vitest';
import { readingFields } from '#server/contract/readings.ts';
import { checkReading } from '#server/services/intake/check-reading.ts';
import { fuzz, hold } from './fuzz.ts';
import { hostileText, hostileValue } from './hostile-values.ts';
import { holdStorable, INSIDE, NOW_MS } from './read-body.ts';
import { goodReading } from './reading-arbitraries.ts';

const digits = (n: number, width: number) => String(n).padStart(width, '0');
/** Times of every shape, near the borders of calendar, zone and what is accepted. */
const time = fc.oneof(
  fc
    .record({
      year: fc.constantFrom(0, 1, 1970, 1989, 1990, 2000, 2023, 2024, 2026, 2100, 9999),
      month: fc.nat(13),
      day: fc.constantFrom(0, 1, 28, 29, 30, 31, 32),
      hour: fc.constantFrom(0, 12, 23, 24),
      minute: fc.constantFrom(0, 59, 60),
      second: fc.constantFrom(':00', ':59', ':60', ''),
      fraction: fc.constantFrom('', '.', '.5', '.123456789', `.${'9'.repeat(40)}`),
      zone: fc.constantFrom(
        'Z',
        'z',
        '',
        '+00:00',
        '-00:00',
        '+14:00',
        '-23:59',
        '+24:00',
        '+0530',
        '+05',
        ' UTC',
      ),
      between: fc.constantFrom('T', 't', ' '),
    })
    .map(
      ({ year, month, day, hour, minute, second, fraction, zone, between }) =>
        `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}${between}${digits(hour, 2)}:${digits(minute, 2)}${second}${fraction}${zone}`,
    ),
  fc.double().map(String),
  hostileText,
);

const name = fc.oneof(fc.constantFrom(...readingFields), hostileText);
const candidate = fc
  .tuple(goodReading(), fc.array(fc.tuple(name, hostileValue), { maxLength: 3 }), fc.option(time))
  .map(([reading, changes, at]) => ({
    ...reading,
    ...(at === null ? {} : { at }),
    ...Object.fromEntries(changes),
  }));

const KM_PER_MILE = 1.609344;

it('accepts or refuses any value, and stores only what storage can hold', async () => {
  await fuzz(
    'value',
    fc.oneof({ weight: 9, arbitrary: candidate }, { weight: 1, arbitrary: hostileValue }),
    (value) => {
      const { reading, errors } = checkReading(value, NOW_MS);
      if (reading !== null) holdStorable(reading);
      else
        hold(
          errors.length > 0 && errors.every(({ message }) => message !== '' && !INSIDE.test(message)),
          () => JSON.stringify(errors),
        );
    },
  );
});

it('accepts every good reading, in the units that are stored', async () => {
  await fuzz('goodReading', goodReading(), (sent) => {
    const { reading, errors } = checkReading(sent, NOW_MS);
    if (reading === null) throw new Error(JSON.stringify(errors));
    const near = (a: number | null, b: number | null) =>
      a === b || (a !== null && b !== null && Math.abs(a - b) <= 1e-9 * Math.abs(b));
    const number = (field: string) => (typeof sent[field] === 'number' ? sent[field] : null);
    const from = (field: string, other: string, convert: (value: number) => number) => {
      const value = number(other);
      return number(field) ?? (value === null ? null : convert(value));
    };
    const engine = number('engine_rpm');
    const slip = number('slip_rpm') ?? (engine === null ? null : engine - (number('turbine_rpm') ?? 0));
    hold(reading.vehicle === sent.vehicle.trim(), () => 'vehicle');
    hold(reading.at.getTime() === Date.parse(sent.at), () => 'at');
    hold(
      near(
        reading.odometerKm,
        from('odometer_km', 'odometer_mi', (mi) => mi * KM_PER_MILE),
      ),
      () => 'odometer',
    );
    hold(near(reading.slipRpm, slip), () => 'slip');
    hold(
      near(
        reading.fluidC,
        from('fluid_c', 'fluid_f', (f) => (f - 32) * (5 / 9)),
      ),
      () => 'fluid',
    );
    hold(
      near(
        reading.speedKmh,
        from('speed_kmh', 'speed_mph', (mph) => mph * KM_PER_MILE),
      ),
      () => 'speed',
    );
    hold(
      near(reading.loadPct, number('load_pct')) && near(reading.seconds, number('seconds')),
      () => 'load, seconds',
    );
    hold(
      reading.gear === number('gear') && reading.shifting === (sent.shifting ?? null),
      () => 'gear, shifting',
    );
  });
});
