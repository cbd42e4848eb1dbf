import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { momentNames, summariseStretch, type WeighedReading } from './summarise-stretch.ts';

const oneReading: WeighedReading = {
  odometerKm: 100_100,
  slipRpm: 23,
  dutyPct: 85,
  fluidC: 88,
  loadPct: 45,
  weight: 0.8,
};
const slips = (...values: number[]) =>
  values.map((slipRpm, i) => ({ ...oneReading, slipRpm, odometerKm: 100_000 + 10 * i, weight: 1 }));

it('runs as its note says', () => {
  expect(summariseStretch([oneReading]).slipRpm).toBe(23);
});

it('gives one reading itself, with the least scale', () => {
  expect(summariseStretch([oneReading])).toEqual({
    n: 1,
    weight: 0.8,
    effective: 1,
    odometerKm: 100_100,
    slipRpm: 23,
    scaleRpm: 2,
    dutyPct: 85,
    fluidC: 88,
    loadPct: 45,
    moments: new Array(10).fill(0),
  });
});

it('is the mean of readings that lie close together', () => {
  const { slipRpm, effective, odometerKm } = summariseStretch(slips(20, 21, 22, 23));
  expect(slipRpm).toBeCloseTo(21.5, 9);
  expect(effective).toBe(4);
  expect(odometerKm).toBe(100_015);
});

describe('a glitch', () => {
  const clean = [18, 20, 21, 22, 24, 19, 23];
  it.each([400, 5_000, -900])('of %d rpm leaves no more than a move within the readings', (glitch) => {
    const { slipRpm, scaleRpm } = summariseStretch(slips(...clean, glitch));
    expect(Math.abs(slipRpm - 21)).toBeLessThan(0.01);
    expect(scaleRpm).toBeLessThan(6);
  });

  it('moves the stretch no further for being larger', () => {
    const of = (glitch: number) => summariseStretch(slips(...clean, glitch));
    expect(of(5_000)).toEqual(of(500));
  });

  it('takes its conditions with it', () => {
    const readings = [
      ...slips(...clean),
      { ...oneReading, slipRpm: 900, fluidC: 30, loadPct: 100, dutyPct: 40 },
    ];
    expect(summariseStretch(readings)).toMatchObject({
      fluidC: expect.closeTo(88, 9),
      loadPct: expect.closeTo(45, 9),
      dutyPct: expect.closeTo(85, 9),
    });
  });
});

it('leaves out a glitch on each side', () => {
  const { slipRpm } = summariseStretch(slips(18, 20, 21, 22, 24, 19, 23, 900, -900));
  expect(Math.abs(slipRpm - 21)).toBeLessThan(0.01);
});

describe('several far readings', () => {
  const cold = { ...oneReading, weight: 1, fluidC: 75 };
  const hot = { ...oneReading, weight: 1, fluidC: 95 };
  const readings = [
    ...[24, 25, 26, 24, 26].map((slipRpm) => ({ ...cold, slipRpm })),
    ...[148, 152, 150].map((slipRpm) => ({ ...hot, slipRpm })),
  ];

  // By hand: means 25 of five and 150 of three, (5 * 25 + 3 * 150) / 8 = 71.875 at (5 * 75 + 3 * 95) / 8 = 82.5.
  it('are no glitches: a clutch that slips only when hot is seen', () => {
    const { slipRpm, fluidC } = summariseStretch(readings);
    expect(slipRpm).toBeCloseTo(71.875, 9);
    expect(fluidC).toBeCloseTo(82.5, 9);
  });

  it('keep what heat does: 125 rpm for 20 degC', () => {
    const products = summariseStretch(readings).moments;
    const [ff = 0, fs = 0] = [products[4], products[6]];
    expect(fs / ff).toBeCloseTo(6.25, 1);
  });

  it('have a lone one beside them left out', () => {
    const withGlitch = summariseStretch([...readings, { ...hot, slipRpm: 3000 }]);
    expect(withGlitch.slipRpm).toBeLessThan(72);
  });
});

it('counts readings near the reference point most', () => {
  const near = { ...oneReading, slipRpm: 20, weight: 1 };
  const far = { ...oneReading, slipRpm: 24, weight: 0.01 };
  const { slipRpm, effective } = summariseStretch([near, far, near, far]);
  expect(slipRpm).toBeLessThan(20.1);
  expect(effective).toBeLessThan(2.1);
});

it.each([
  ['loadPct', 'l'],
  ['fluidC', 'f'],
] as const)('says null for %s where any reading lacks it, and keeps no products of it', (signal, letter) => {
  const other = { ...oneReading, slipRpm: 25, fluidC: 80, loadPct: 60, dutyPct: 80 };
  const summary = summariseStretch([oneReading, { ...other, [signal]: null }]);
  const whole = summariseStretch([oneReading, other]);
  expect(summary).toMatchObject({ slipRpm: whole.slipRpm, [signal]: null });
  momentNames.forEach((name, i) => {
    expect(summary.moments[i], name).toBe(name.includes(letter) ? 0 : whole.moments[i]);
  });
});

// By hand: fluid 80, 90, 100 and slip 20, 21, 22 at weight 1, centred -10, 0, 10 and -1, 0, 1.
it('keeps the centred cross products in the order of their names', () => {
  const readings = [80, 90, 100].map((fluidC, i) => ({ ...oneReading, weight: 1, fluidC, slipRpm: 20 + i }));
  const products = Object.fromEntries(
    momentNames.map((name, i) => [name, summariseStretch(readings).moments[i]]),
  );
  expect(products).toMatchObject({ ff: 200, fs: 20, ss: 2, ll: 0, fd: 0 });
});

// Bounds of a mean of 40 values of sd 5: 5 standard errors; Huber's estimate at k = 2 is 99 % as sharp.
it('finds the level and the spread of normal readings', () => {
  const { normal } = seededRandom(21);
  const { slipRpm, scaleRpm } = summariseStretch(
    slips(...Array.from({ length: 40 }, () => 30 + 5 * normal())),
  );
  expect(Math.abs(slipRpm - 30)).toBeLessThan((5 * 5) / Math.sqrt(40));
  expect(scaleRpm).toBeGreaterThan(2.5);
  expect(scaleRpm).toBeLessThan(8);
});

it('moves with the readings, and stays within them', () => {
  const values = fc.array(fc.double({ min: -15, max: 400, noNaN: true }), { minLength: 1, maxLength: 15 });
  fc.assert(
    fc.property(values, (given) => {
      const plain = summariseStretch(slips(...given));
      const moved = summariseStretch(slips(...given.map((slip) => slip + 100)));
      expect(moved.slipRpm - plain.slipRpm).toBeCloseTo(100, 6);
      expect(plain.slipRpm).toBeGreaterThanOrEqual(Math.min(...given) - 1e-9);
      expect(plain.slipRpm).toBeLessThanOrEqual(Math.max(...given) + 1e-9);
    }),
    { seed: 5, numRuns: 60 },
  );
});

it('refuses no readings', () => {
  expect(() => summariseStretch([])).toThrow('summariseStretch requires');
});
