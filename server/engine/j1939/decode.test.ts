import { describe, expect, it } from 'vitest';
import { decodeCodes } from './decode-codes.ts';
import { decodeVin } from './decode-vin.ts';
import { judgeRaw } from './judge-raw.ts';
import { readRaw } from './read-raw.ts';
import { scaleRaw } from './scale-raw.ts';
import { type SignalName, signals } from './signals.ts';
import { splitIdentifier } from './split-identifier.ts';

describe('an identifier', () => {
  // SAE J1939-21: 3, 6 and 7 are priorities; PF below F0 makes PS the destination.
  it.each([
    [0x0cf00203, { priority: 3, pgn: 61_442, source: 3, destination: null }],
    [0x0cf00400, { priority: 3, pgn: 61_444, source: 0, destination: null }],
    [0x18fef803, { priority: 6, pgn: 65_272, source: 3, destination: null }],
    [0x1cecff03, { priority: 7, pgn: 60_416, source: 3, destination: 255 }],
    [0x18eb0017, { priority: 6, pgn: 60_160, source: 0x17, destination: 0 }],
    [0x18eeff21, { priority: 6, pgn: 60_928, source: 0x21, destination: 255 }],
    [0x18f00203, { priority: 6, pgn: 61_442, source: 3, destination: null }],
    [0x19f0020a, { priority: 6, pgn: 126_978, source: 10, destination: null }],
    [0x1aef0305, { priority: 6, pgn: 192_256, source: 5, destination: 3 }],
    [0x1fffffff, { priority: 7, pgn: 262_143, source: 255, destination: null }],
  ])('%i has its parts', (id, parts) => {
    expect(splitIdentifier(id)).toEqual(parts);
  });
});

const F = 0xff;
const readValue = (name: SignalName, bytes: number[]) => {
  const raw = readRaw(Uint8Array.from(bytes), bytes.length, signals[name]);
  return raw < 0 || judgeRaw(raw, signals[name].bits) !== 'valid' ? null : scaleRaw(raw, signals[name]);
};

// Each value worked out by hand from the row of the table: raw * resolution + offset, least byte first.
describe('a signal', () => {
  it.each<[SignalName, number, number, number[], number]>([
    // 1101_0001: driveline 01, lockup 00, shift 01
    ['drivelineEngaged', 61_442, 560, [0b1101_0001], 1],
    ['lockupEngaged', 61_442, 573, [0b1111_0111], 1],
    ['lockupEngaged', 61_442, 573, [0b1111_0011], 0],
    ['shiftInProcess', 61_442, 574, [0b1101_0001], 1],
    ['shiftInProcess', 61_442, 574, [0b1100_1111], 0],
    // 2540 hex = 9536 * 0.125
    ['outputShaftSpeed', 61_442, 191, [F, 0x40, 0x25, F, F, F, F, F], 1192],
    // 25 * 0.4
    ['clutchSlip', 61_442, 522, [F, F, F, 25, F, F, F, F], 10],
    // 2EDC hex = 11996 * 0.125
    ['inputShaftSpeed', 61_442, 161, [F, F, F, F, F, 0xdc, 0x2e, F], 1499.5],
    // 131 - 125; 124 - 125 is reverse
    ['selectedGear', 61_445, 524, [131, F, F, F, F, F, F, F], 6],
    ['currentGear', 61_445, 523, [F, F, F, 124, F, F, F, F], -1],
    // 0D7D hex = 3453 * 0.001
    ['gearRatio', 61_445, 526, [F, 0x7d, 0x0d, F, F, F, F, F], 3.453],
    // 180 - 125
    ['engineTorque', 61_444, 513, [F, F, 180, F, F, F, F, F], 55],
    // 2EE4 hex = 12004 * 0.125
    ['engineSpeed', 61_444, 190, [F, F, F, 0xe4, 0x2e, F, F, F], 1500.5],
    // 250 * 0.4
    ['accelerator', 61_443, 91, [F, 250, F, F, F, F, F, F], 100],
    // loads above 100 % occur
    ['load', 61_443, 92, [F, F, 127, F, F, F, F, F], 127],
    // 2D00 hex = 11520 * 0.03125 - 273
    ['fluidTemperature', 65_272, 177, [F, F, F, F, 0x00, 0x2d, F, F], 87],
    // 5080 hex = 20608 / 256
    ['roadSpeed', 65_265, 84, [F, 0x80, 0x50, F, F, F, F, F], 80.5],
    // trip first: 8 = 1 km; total second: 000F4240 hex = 1,000,000 * 0.125
    ['distance', 65_248, 245, [8, 0, 0, 0, 0x40, 0x42, 0x0f, 0x00], 125_000],
    // total first: 017D7840 hex = 25,000,000 * 5 m
    ['preciseDistance', 65_217, 917, [0x40, 0x78, 0x7d, 0x01, 8, 0, 0, 0], 125_000],
  ])('%s of group %i, SPN %i, has its value', (name, pgn, spn, bytes, value) => {
    expect(signals[name]).toMatchObject({ pgn, spn });
    expect(readValue(name, bytes)).toBeCloseTo(value, 9);
  });

  it('is absent where the data end before it', () => {
    for (const [name, length] of [
      ['engineSpeed', 4],
      ['load', 2],
      ['distance', 7],
      ['lockupEngaged', 0],
    ] as const)
      expect(readRaw(new Uint8Array(8), length, signals[name])).toBe(-1);
  });

  it('is the largest of four bytes without a sign', () => {
    expect(readRaw(Uint8Array.of(0xff, 0xff, 0xff, 0xfa), 4, signals.preciseDistance)).toBe(0xfaffffff);
  });
});

describe('a raw value', () => {
  it.each([
    [0x00, 8, 'valid'],
    [0xfa, 8, 'valid'],
    [0xfb, 8, 'specific'],
    [0xfc, 8, 'reserved'],
    [0xfd, 8, 'reserved'],
    [0xfe, 8, 'error'],
    [0xff, 8, 'not_available'],
    [0x00ff, 16, 'valid'],
    [0xfaff, 16, 'valid'],
    [0xfb00, 16, 'specific'],
    [0xfdff, 16, 'reserved'],
    [0xfeff, 16, 'error'],
    [0xfe00, 16, 'error'],
    [0xff00, 16, 'not_available'],
    [0xffff, 16, 'not_available'],
    [0xfaffffff, 32, 'valid'],
    [0xfb000000, 32, 'specific'],
    [0xfe000000, 32, 'error'],
    [0xffffffff, 32, 'not_available'],
    [0, 2, 'valid'],
    [1, 2, 'valid'],
    [2, 2, 'error'],
    [3, 2, 'not_available'],
  ] as const)('%i of %i bits is %s', (raw, bits, kind) => {
    expect(judgeRaw(raw, bits)).toBe(kind);
  });
});

describe('active trouble codes', () => {
  it('have the number in three parts, the failure in five bits and a count', () => {
    // 70001 hex would be SPN 7 * 65536 + 1 = 458753; E3 hex = 111_00011: high part 7, FMI 3
    expect(decodeCodes(Uint8Array.of(0x40, 0xff, 0x01, 0x00, 0xe3, 0x05, 0xff, 0xff))).toEqual({
      codes: [{ spn: 458_753, fmi: 3, count: 5 }],
      otherLayout: 0,
    });
    // 573 = 023D hex; 127 says that nobody counts
    expect(decodeCodes(Uint8Array.of(0, 0, 0x3d, 0x02, 0x07, 0x7f)).codes).toEqual([
      { spn: 573, fmi: 7, count: null },
    ]);
  });

  it('are none where number and failure are 0', () => {
    expect(decodeCodes(Uint8Array.of(0, 0, 0, 0, 0, 0, 0xff, 0xff))).toEqual({ codes: [], otherLayout: 0 });
  });

  it('are left out and counted where the conversion bit is set, padding aside', () => {
    const data = Uint8Array.of(0, 0, 0x3d, 2, 7, 0x81, 0x3d, 2, 8, 1, 255, 255, 255, 255);
    expect(decodeCodes(data)).toEqual({ codes: [{ spn: 573, fmi: 8, count: 1 }], otherLayout: 1 });
  });
});

describe('a VIN', () => {
  const bytes = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  it.each([
    ['1M8GDM9AXKP042788*', '1M8GDM9AXKP042788'],
    ['1M8GDM9AXKP042788', '1M8GDM9AXKP042788'],
    ['1M8GDM9AXKP042788*\xff\xff\xff', '1M8GDM9AXKP042788'],
    [' SHORT7*', 'SHORT7'],
    ['AB\x00\x00', 'AB'],
    ['*', null],
    ['\xff\xff\xff\xff\xff\xff\xff\xff', null],
    ['    ', null],
    ['AB\x07CD*', null],
  ])('of %j is %j', (text, vin) => {
    expect(decodeVin(bytes(text))).toBe(vin);
  });
});
