import { describe, expect, it } from 'vitest';
import { createTimeTextReader } from './read-time-text.ts';
import { dayOfFile } from './vehicle-of-file.ts';
import { createZoneClock, isZone } from './zone-clock.ts';

const iso = (ms: number | null) => (ms === null ? null : new Date(ms).toISOString());
const day = (text: string) => Date.parse(`${text}T00:00:00Z`);
const HOUR_MS = 3_600_000;

describe('a time as it is written', () => {
  it.each([
    ['2026-03-04T05:06:07.250Z', 'ymd', '2026-03-04T05:06:07.250Z', 0],
    ['2026-03-04 05:06:07', 'dmy', '2026-03-04T05:06:07.000Z', null],
    ['2026-03-04 05:06:07,5+0200', 'dmy', '2026-03-04T05:06:07.500Z', 2],
    ['20260304T050607', 'mdy', '2026-03-04T05:06:07.000Z', null],
    ['04.03.2026 5:06', 'dmy', '2026-03-04T05:06:00.000Z', null],
    ['4.3.26 05:06:07 Uhr', 'dmy', '2026-03-04T05:06:07.000Z', null],
    ['3/4/2026 5:06 PM', 'mdy', '2026-03-04T17:06:00.000Z', null],
    ['3/4/2026 12:06 AM', 'mdy', '2026-03-04T00:06:00.000Z', null],
    ['3/4/2026 12:06 p.m.', 'dmy', '2026-04-03T12:06:00.000Z', null],
    ['2026/03/04 05:06:07 UTC', 'ymd', '2026-03-04T05:06:07.000Z', 0],
    ['4 Mar 2026 05:06', 'ymd', '2026-03-04T05:06:00.000Z', null],
    ['Wed, 04-MAR-2026 05:06:07 GMT+1', 'ymd', '2026-03-04T05:06:07.000Z', 1],
    ['March 4th, 2026 5:06 am', 'ymd', '2026-03-04T05:06:00.000Z', null],
    ['4. März 2026 05:06', 'ymd', '2026-03-04T05:06:00.000Z', null],
    ['4 août 2026 05:06', 'ymd', '2026-08-04T05:06:00.000Z', null],
    ['4 de marzo de 2026 05:06', 'ymd', '2026-03-04T05:06:00.000Z', null],
    ['26-03-04 05:06:07', 'ymd', '2026-03-04T05:06:07.000Z', null],
  ] as const)('%s in the order %s', (text, order, expected, offsetHours) => {
    const found = createTimeTextReader(order)(text);
    expect(iso((found?.dayMs ?? Number.NaN) + (found?.clockMs ?? Number.NaN))).toBe(expected);
    expect(found?.offsetMs).toBe(offsetHours === null ? null : offsetHours * HOUR_MS);
  });

  it('may be the day alone, or the clock alone', () => {
    const read = createTimeTextReader('dmy');
    expect(read('04.03.2026')).toEqual({ dayMs: day('2026-03-04'), clockMs: null, offsetMs: null });
    expect(read('5:06:07 PM')).toMatchObject({ dayMs: null, clockMs: 17 * HOUR_MS + 367_000 });
  });

  it.each([
    '30.02.2026 05:06',
    '31/13/2026',
    '04.03.2026 24:00',
    '04.03.2026 5:60',
    '13:00 PM',
    '2026-03-04T05:06:07+99:99',
    '2026-03-04T05:06:07+02:60',
    '05:06 -15',
    'soon',
    '',
    '12',
    '2026-03-04 05:06:07 Mars',
    `${'1'.repeat(70)}`,
  ])('is none: %s', (text) => expect(createTimeTextReader('dmy')(text)).toBeNull());

  it('is not read in an order that it is not said to have', () =>
    expect(createTimeTextReader('ymd')('04.03.2026 05:06')).toBeNull());
});

it.each([
  ['B-7_20260304.csv', '2026-03-04'],
  ['B-7_20260231.csv', null],
  ['B-7_2026-04-31.csv', null],
  ['B-7.csv', null],
])('the day in the name %s is %s', (name, day) => expect(dayOfFile(name)).toBe(day));

describe('a local time', () => {
  const berlin = createZoneClock('Europe/Berlin');
  // Clocks in Berlin went forward on 2026-03-29 at 2:00 and back on 2025-10-26 at 3:00 (Directive 2000/84/EC).
  it.each([
    ['2026-03-04T05:06:07Z', '2026-03-04T04:06:07.000Z'],
    ['2026-03-29T01:59:59Z', '2026-03-29T00:59:59.000Z'],
    ['2026-03-29T02:00:00Z', null],
    ['2026-03-29T02:59:59Z', null],
    ['2026-03-29T03:00:00Z', '2026-03-29T01:00:00.000Z'],
    ['2025-10-26T02:30:00Z', '2025-10-26T00:30:00.000Z'],
    ['2025-10-26T03:00:00Z', '2025-10-26T02:00:00.000Z'],
    ['2400-01-01T00:00:00Z', null],
  ])('%s in Berlin', (local, expected) => {
    expect(iso(berlin(Date.parse(local)))).toBe(expected);
    expect(iso(berlin(Date.parse(local)))).toBe(expected);
  });

  it('has the offset that was said, or that of a change at an odd minute', () => {
    expect(iso(createZoneClock('+05:30')(day('2026-03-04')))).toBe('2026-03-03T18:30:00.000Z');
    // St. John's went forward at 0:01 until 2011 (tz database).
    const johns = createZoneClock('America/St_Johns');
    expect(iso(johns(Date.parse('2010-03-14T00:00:30Z')))).toBe('2010-03-14T03:30:30.000Z');
    expect(johns(Date.parse('2010-03-14T00:30:00Z'))).toBeNull();
  });

  it.each([
    ['Europe/Berlin', true],
    ['+02:00', true],
    ['UTC', true],
    ['Mars', false],
    ['', false],
  ])('knows a zone: %s', (zone, known) => expect(isZone(zone)).toBe(known));
});
