import { describe, expect, it } from 'vitest';
import type { LifeWeek } from '#db/queries/make-life-weeks.ts';
import type { VehicleWeeks } from '#db/queries/read-life-weeks.ts';
import type { AnalysedLife } from '#server/contract/lives.ts';
import { isDeclined } from '#server/engine/declined.ts';
import { analyseExposures } from '#server/services/analysis/analyse-exposures.ts';
import { compareUse, nameLife } from './compare-use.ts';
import type { Weeks } from './weeks-within.ts';

const VEHICLES = 150;
/** Evenly spread over 0 to 1, each step another order. */
const part = (i: number, step: number) => ((i + 1) * step) % 1;
const seasonC = (week: number) => -12 * Math.cos((2 * Math.PI * week) / 52);

const weekOf = (week: number, fluidC: number, over: Partial<Record<number, number>> = {}): LifeWeek =>
  [1, week, 100, 20, 100, 100 * fluidC, 100, 5_000, 100, 10, 40, 8_000].map(
    (value, i) => over[i] ?? value,
  ) as unknown as LifeWeek;

/** Half a year of each vehicle, begun in this week, its fluid hotter by its own use. */
const fleet = (ownC: (i: number) => number, firstWeek: (i: number) => number): VehicleWeeks[] =>
  Array.from({ length: VEHICLES }, (_, i) => ({
    vehicle: i,
    platform: 'bus',
    weeks: Array.from({ length: 26 }, (_, k) => firstWeek(i) + k).map((week) =>
      weekOf(week, 80 + ownC(i) + seasonC(week) + part(i * 26 + week, 0.7548776662) - 0.5),
    ),
  }));

/** Weibull lives of shape 2.2, a hundredth of them running on. */
const exitKm = (i: number) => 200_000 * (-Math.log(1 - part(i, 0.5698402909))) ** (1 / 2.2);

function regress(
  vehicles: readonly VehicleWeeks[],
  exits: (i: number) => number,
  mean: (i: number) => number,
) {
  const lives = vehicles.map(({ vehicle: i }): AnalysedLife => {
    return {
      entry: 0,
      exit: exits(i),
      event: i % 100 !== 99,
      count: 1,
      mode: undefined,
      group: undefined,
      covariates: { fluid_c: mean(i) },
    };
  });
  const { cox } = analyseExposures(lives, 0.95);
  const term = isDeclined(cox) ? undefined : cox.terms[0];
  if (term === undefined) throw new Error('no regression');
  return term;
}

const comparedIn = (vehicles: readonly VehicleWeeks[]) => {
  const used = compareUse(vehicles);
  return (i: number) => used.get(nameLife({ vehicle: i, life: 1 }))?.fluid_c ?? Number.NaN;
};
const plainIn = (vehicles: readonly VehicleWeeks[]) => (i: number) => {
  const weeks = vehicles[i]?.weeks ?? [];
  return weeks.reduce((sum, week) => sum + week[5] / week[4], 0) / weeks.length;
};

describe('exposures of a made fleet', () => {
  // Short lives were seen in winter, long ones in summer; all are used alike.
  it('show no effect where the season alone differs, though plain means would', () => {
    const inWinter = (i: number) => exitKm(i) < 150_000;
    const made = fleet(
      () => 0,
      (i) => (inWinter(i) ? 40 : 10) + Math.floor(8 * part(i, 0.2887)),
    );
    expect(regress(made, exitKm, plainIn(made)).p).toBeLessThan(1e-6);
    const { p, z } = regress(made, exitKm, comparedIn(made));
    expect(p).toBeGreaterThan(0.05);
    expect(Math.abs(z)).toBeLessThan(2);
  });

  // One degC more shortens a life by a factor exp(-0.05): with shape 2.2 the log hazard ratio is 0.11 for each degC.
  it('show a true effect, whenever each was seen', () => {
    const ownC = (i: number) => 16 * (part(i, 0.3819660113) - 0.5);
    const made = fleet(ownC, (i) => Math.floor(78 * part(i, 0.8191725134)));
    const { coef, se } = regress(made, (i) => exitKm(i) * Math.exp(-0.05 * ownC(i)), comparedIn(made));
    expect(Math.abs(coef - 0.11)).toBeLessThan(3 * se);
    expect(coef).toBeGreaterThan(4 * se);
  });

  it('are of a platform by itself, and end where they end by their nature', () => {
    const one = (vehicle: number, platform: string, over: Partial<Record<number, number>>) => ({
      vehicle,
      platform,
      weeks: [weekOf(1, 80, over), weekOf(2, 90, {})],
    });
    const used = compareUse([
      one(1, 'bus', { 9: 0, 3: 100, 10: 0 }),
      one(2, 'bus', { 9: 90, 3: 0 }),
      one(3, 'truck', {}),
    ]);
    const [first, second] = [used.get('1 1'), used.get('2 1')];
    expect(first?.hot_pct).toBeCloseTo(5, 6);
    expect(second?.hot_pct).toBeCloseTo(50, 6);
    // Heat of 0 and 40 kW over 8,000 km/h in one week, 40 in the other: 0.5 and 1 of 40 / 8,000 x 3,600 = 18 MJ.
    expect(first?.heat_mj_per_1000km).toBeCloseTo(9, 6);
    expect(second?.heat_mj_per_1000km).toBeCloseTo(18, 6);
    expect(first?.partial_lockup_pct).toBeCloseTo(60, 6);
    expect(second?.partial_lockup_pct).toBeCloseTo(10, 6);
    expect(Object.values(used.get('3 1') ?? {})).toEqual([null, null, null, null, null]);
  });

  it('are of the weeks that are asked for', () => {
    const weeks = (hotC: number) => [1, 2, 3, 4].map((week) => weekOf(week, week === 3 ? hotC : 80));
    const made = [80, 80, 110].map((hotC, vehicle) => ({ vehicle, platform: 'bus', weeks: weeks(hotC) }));
    const fluidOf = (weeks: Weeks) => compareUse(made, weeks).get('2 1')?.fluid_c;
    expect(fluidOf({ first: 1, last: 2 })).toBeCloseTo(80, 9);
    expect(fluidOf({ first: 4, last: 4 })).toBeCloseTo(80, 9);
    expect(fluidOf({ first: 2, last: 3 })).toBeCloseTo(95, 6);
    expect(compareUse(made, { first: 5, last: 4 }).size).toBe(0);
  });
});
