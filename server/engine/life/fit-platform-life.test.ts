import { describe, expect, it } from 'vitest';
import { fitPlatformLife } from './fit-platform-life.ts';
import { fitSharedShape } from './fit-shared-shape.ts';
import type { ObservedLife } from './life-model.ts';

const life = (exit: number, event: boolean, entry = 0): ObservedLife => ({ entry, exit, event, count: 1 });
const failed = (...exits: number[]) => exits.map((exit) => life(exit, true));
const running = (...exits: number[]) => exits.map((exit) => life(exit, false));

describe('with too few failures in the fleet', () => {
  it('runs as its note says: takes the expected life with the assumed shape', () => {
    expect(fitPlatformLife([], [], 300_000)).toEqual({
      basis: 'expected',
      shape: 2.2,
      scaleKm: expect.closeTo(338_753, 0),
      lives: 0,
      failures: 0,
      fleetFailures: 0,
      variances: null,
    });
    const own = [...failed(90_000, 120_000), ...running(100_000)];
    expect(fitPlatformLife(own, [own], 300_000)).toMatchObject({ basis: 'expected', lives: 3, failures: 2 });
  });

  it('knows nothing where no life is expected', () => {
    expect(fitPlatformLife([], [], null)).toBeNull();
  });
});

// Five failures and nothing else: the shape of 100, 150, 180, 220, 300 thousand km solves
// sum(x^k ln x)/sum(x^k) - 1/k = mean(ln x); checked here by putting the answer in.
it('takes the own fit from five failures, whatever the rest of the fleet did', () => {
  const own = failed(100_000, 150_000, 180_000, 220_000, 300_000);
  const found = fitPlatformLife(own, [own, failed(10_000, 20_000)], 300_000);
  expect(found).toMatchObject({ basis: 'own', lives: 5, failures: 5, fleetFailures: 7 });
  const k = found?.shape ?? 0;
  const logs = own.map(({ exit }) => Math.log(exit / 1e5));
  const powers = own.map(({ exit }) => (exit / 1e5) ** k);
  const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
  const balance = sum(powers.map((power, i) => power * (logs[i] ?? 0))) / sum(powers) - 1 / k;
  expect(balance).toBeCloseTo(sum(logs) / 5, 6);
  expect((found?.scaleKm ?? 0) / (1e5 * (sum(powers) / 5) ** (1 / k))).toBeCloseTo(1, 6);
  expect(found?.variances?.logShape).toBeGreaterThan(0.05);
});

describe('with few failures of its own', () => {
  const other = failed(80_000, 120_000, 150_000, 200_000);
  const own = [...failed(250_000), ...running(200_000, 220_000, 240_000)];

  // By hand with the shape k: T_own = sum of x^k over own lives, rate = (2 + 1) / (2 * T_all / 5 + T_own).
  it('has the shape of the fleet and a scale between the fleet and its own', () => {
    const found = fitPlatformLife(own, [own, other], 300_000);
    const { shape } = fitSharedShape([own, other]);
    const use = (lives: readonly ObservedLife[]) =>
      lives.reduce((all, { exit }) => all + (exit / 1e5) ** shape, 0);
    const rate = 3 / ((2 * use([...own, ...other])) / 5 + use(own));
    expect(found).toMatchObject({ basis: 'shared_shape', shape, failures: 1, fleetFailures: 5 });
    const scaleKm = found?.scaleKm ?? 0;
    expect(scaleKm / (1e5 * rate ** (-1 / shape))).toBeCloseTo(1, 9);
    expect(scaleKm).toBeGreaterThan(1e5 * (use([...own, ...other]) / 5) ** (1 / shape));
    expect(scaleKm).toBeLessThan(1e5 * use(own) ** (1 / shape));
  });

  it('has a scale no surer than three failures make it', () => {
    const found = fitPlatformLife(own, [own, other], 300_000);
    const shape = found?.shape ?? 0;
    expect(found?.variances?.logScale).toBeGreaterThanOrEqual(1 / (3 * shape ** 2));
  });

  it('takes five failures at one mileage as few: they have no shape of their own', () => {
    const tied = failed(100_000, 100_000, 100_000, 100_000, 100_000);
    expect(fitPlatformLife(tied, [tied, other], null)).toMatchObject({ basis: 'shared_shape', failures: 5 });
  });
});

describe('without a failure of its own', () => {
  const other = failed(80_000, 120_000, 150_000, 200_000);

  it('has the life of the fleet where it has hardly run', () => {
    const found = fitPlatformLife(running(500), [running(500), other], 300_000);
    const { shape } = fitSharedShape([other]);
    const mean = other.reduce((all, { exit }) => all + exit ** shape, 0) / 4;
    expect(found).toMatchObject({ basis: 'fleet', shape, failures: 0 });
    expect((found?.scaleKm ?? 0) / mean ** (1 / shape)).toBeCloseTo(1, 4);
  });

  it('has a longer one the further it has run without a failure', () => {
    const scales = [1_000, 50_000, 150_000, 300_000].map((km) => {
      const own = running(km, km);
      return fitPlatformLife(own, [own, other], null)?.scaleKm ?? 0;
    });
    expect(scales).toEqual([...scales].sort((a, b) => a - b));
    expect(new Set(scales).size).toBe(4);
  });

  it('stays within the range of numbers for mileages of any unit', () => {
    const far = (lives: readonly ObservedLife[]) =>
      lives.map((one) => ({ ...one, exit: one.exit * 1e-9, entry: one.entry * 1e-9 }));
    const own = running(50_000);
    const near = fitPlatformLife(own, [own, other], null)?.scaleKm ?? 0;
    expect((fitPlatformLife(far(own), [far(own), far(other)], null)?.scaleKm ?? 0) / near).toBeCloseTo(
      1e-9,
      15,
    );
  });
});
