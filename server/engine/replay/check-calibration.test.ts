import { describe, expect, it } from 'vitest';
import { checkCalibration, type StatedChance } from './check-calibration.ts';

const look = (vehicle: number, chance: number, drivenKm: number, failed = false): StatedChance => ({
  vehicle,
  chance,
  drivenKm,
  failed,
});

it('runs as its note says', () => {
  expect(checkCalibration([], 5_000)).toEqual([]);
});

describe('what came of stated chances', () => {
  it('is the product of Kaplan and Meier over looks that were not all followed to the end', () => {
    // By hand: at 1,000 one of 4 fails; one is seen last at 2,000; at 3,000 one of 2: S = 3/4 * 1/2.
    const [row] = checkCalibration(
      [look(1, 0.3, 1_000, true), look(2, 0.25, 2_000), look(3, 0.3, 3_000, true), look(4, 0.35, 9_000)],
      5_000,
    );
    expect(row).toMatchObject({ from: 0.2, to: 0.4, n: 4, vehicles: 4 });
    expect(row?.stated).toBeCloseTo(0.3, 12);
    expect(row?.seen).toBeCloseTo(1 - 0.75 * 0.5, 12);
  });

  it('leaves a failure beyond the horizon out', () => {
    const looks = [look(1, 0.01, 6_000, true), look(2, 0.01, 7_000), look(3, 0.01, 8_000)];
    expect(checkCalibration(looks, 5_000)[0]?.seen).toBe(0);
  });

  it('is not told from fewer than three vehicles that failed or went all the way', () => {
    const looks = [
      look(1, 0.5, 1_000, true),
      look(1, 0.5, 900, true),
      look(2, 0.5, 6_000),
      look(3, 0.5, 100),
    ];
    expect(checkCalibration(looks, 5_000)[0]).toMatchObject({
      vehicles: 3,
      seen: null,
      low: null,
      high: null,
    });
  });

  it('puts a chance of 1 in the last bin and an edge in the upper one', () => {
    const rows = checkCalibration(
      [look(1, 1, 10, true), look(2, 0.8, 10, true), look(3, 0.05, 10, true)],
      5_000,
    );
    expect(rows.map(({ from, n }) => [from, n])).toEqual([
      [0.05, 1],
      [0.8, 2],
    ]);
  });
});

describe('bounds', () => {
  it('are those of the jackknife, by vehicles and not by looks', () => {
    // One look at each of 10 vehicles, 4 failed: the jackknife of a mean gives sqrt(p (1 - p) / (n - 1)).
    const once = Array.from({ length: 10 }, (_, i) => look(i, 0.3, i < 4 ? 100 : 9_000, i < 4));
    const [row] = checkCalibration(once, 5_000);
    // t of 9 degrees of freedom, 0.975: 2.262157 (Abramowitz and Stegun 1964, table 26.10).
    const reach = 2.262157 * Math.sqrt((0.4 * 0.6) / 9);
    expect(row?.seen).toBeCloseTo(0.4, 12);
    expect(row?.low).toBeCloseTo(0.4 - reach, 6);
    expect(row?.high).toBeCloseTo(0.4 + reach, 6);
    // The same looks five times over tell nothing more.
    const [again] = checkCalibration([...once, ...once, ...once, ...once, ...once], 5_000);
    expect(again).toMatchObject({ n: 50, vehicles: 10 });
    expect(again?.low).toBeCloseTo(row?.low ?? 0, 12);
  });

  it('are exact where none failed: 1 - 0.025^(1/10) of 10 vehicles is 0.3085 (Clopper and Pearson 1934, 0 of 10)', () => {
    const none = Array.from({ length: 10 }, (_, i) => look(i, 0.01, 9_000));
    const [row] = checkCalibration(none, 5_000);
    expect(row).toMatchObject({ seen: 0, low: 0 });
    expect(row?.high).toBeCloseTo(0.3085, 4);
  });

  it('are no closer for vehicles that were followed a short way', () => {
    const full = Array.from({ length: 3 }, (_, i) => look(i, 0.01, 9_000));
    const short = Array.from({ length: 97 }, (_, i) => look(3 + i, 0.01, 10));
    const [row] = checkCalibration([...full, ...short], 5_000);
    expect(row).toMatchObject({ vehicles: 100, seen: 0 });
    // 0 of 3 by Clopper and Pearson: 1 - 0.025^(1/3).
    expect(row?.high).toBeCloseTo(0.7076, 4);
  });
});
