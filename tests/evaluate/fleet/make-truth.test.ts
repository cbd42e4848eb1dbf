import { describe, expect, it } from 'vitest';
import { depotInput, lifeInput, platformInput, vehicleInput } from '#server/contract/fleet.ts';
import { DAY_MS } from './drive-calendar.ts';
import { recipes } from './recipes.ts';
import { simulateFleet } from './simulate-fleet.ts';

const small = recipes.find(({ name }) => name === 'small');
if (small === undefined) throw new Error('the tests require the recipe "small"');
const fleet = simulateFleet({ ...small, failedShare: 0.15, preventiveShare: 0.1, vehicles: 150 });
const { truth, fromMs, toMs } = fleet;
const days = Array.from({ length: Math.round((toMs - fromMs) / DAY_MS) }, (_, day) => fromMs + day * DAY_MS);

describe('truth of a fleet', () => {
  it('never drives backwards and stands still after the end', () => {
    for (const vehicle of truth) {
      const km = days.map((ms) => vehicle.odometerAt(ms));
      expect(km.every((value, day) => day === 0 || value >= (km[day - 1] ?? 0))).toBe(true);
      expect(vehicle.odometerAt(toMs + 50 * DAY_MS)).toBe(vehicle.odometerAt(toMs));
    }
  });

  it('is at the limit where it says that the limit is crossed', () => {
    const crossings = truth.flatMap((vehicle) =>
      vehicle.crossings.map((crossing) => ({ vehicle, crossing })),
    );
    expect(crossings.length).toBeGreaterThan(15);
    for (const { vehicle, crossing } of crossings) {
      expect(vehicle.odometerAt(crossing.ms)).toBeCloseTo(crossing.km, 0);
      // The laws rise by less than 2 rpm in the kilometre that rounding of times may cost.
      expect(Math.abs(vehicle.referenceSlipAt(crossing.ms) - vehicle.limitRpm)).toBeLessThan(2);
      expect(vehicle.kmToLimitAt(crossing.ms)).toBeLessThan(1);
    }
  });

  it('says 0 km to the limit just where the reference slip has passed it', () => {
    for (const vehicle of truth)
      for (const ms of days.filter((_, day) => day % 9 === 0)) {
        const left = vehicle.kmToLimitAt(ms);
        if (left === 0) expect(vehicle.referenceSlipAt(ms)).toBeGreaterThan(vehicle.limitRpm - 1e-6);
        else expect(vehicle.referenceSlipAt(ms)).toBeLessThan(vehicle.limitRpm);
        if (left !== null) expect(left).toBeLessThanOrEqual(300_000);
        if (!vehicle.hasOnsetAt(ms)) expect(vehicle.referenceSlipAt(ms)).toBeLessThan(33);
      }
  });

  it('falls back to healthy slip when a converter is replaced', () => {
    const replaced = truth.flatMap((vehicle) => vehicle.replacements.map((one) => ({ vehicle, one })));
    expect(replaced.length).toBeGreaterThan(20);
    for (const { vehicle, one } of replaced) {
      expect(vehicle.hasOnsetAt(one.ms)).toBe(false);
      expect(vehicle.referenceSlipAt(one.ms)).toBeLessThan(33);
      expect(vehicle.odometerAt(one.ms)).toBeCloseTo(one.km, 6);
    }
    const afterCrossing = replaced.flatMap(({ vehicle, one }) =>
      vehicle.crossings.filter(({ ms }) => ms < one.ms).map(({ km }) => one.km - km),
    );
    expect(afterCrossing.length).toBeGreaterThan(15);
    expect(Math.max(...afterCrossing)).toBeLessThanOrEqual(4000);
  });
});

describe('set-up of a fleet', () => {
  it('is what the contract takes', () => {
    for (const body of fleet.platforms) expect(platformInput.safeParse(body).error).toBeUndefined();
    for (const body of fleet.depots) expect(depotInput.safeParse(body).error).toBeUndefined();
    for (const body of fleet.vehicles) expect(vehicleInput.safeParse(body).error).toBeUndefined();
    for (const { life } of fleet.lives) expect(lifeInput.safeParse(life).error).toBeUndefined();
  });

  it('gives the limit of the truth to the platform', () => {
    const limits = new Map(
      fleet.platforms.map((body) => platformInput.parse(body)).map((p) => [p.id, p.limit_rpm]),
    );
    expect(new Set(limits.values()).size).toBeGreaterThan(2);
    for (const { platform, limitRpm } of truth) expect(limits.get(platform ?? '')).toBe(limitRpm);
  });

  it('tells of a replacement when it is reported, after it happened, and never of another', () => {
    const told = fleet.lives
      .map(({ atMs, life }) => ({ atMs, life: lifeInput.parse(life) }))
      .filter(({ life }) => life.fitted_at != null);
    const happened = truth.flatMap(({ unit, replacements }) => replacements.map((one) => ({ unit, ...one })));
    const reported = happened.filter((one) => one.reported);
    expect(reported.length).toBeGreaterThan(8);
    expect(told).toHaveLength(reported.length);
    for (const { unit, km, ms } of reported) {
      const one = told.find(({ life }) => life.vehicle === unit);
      expect(one?.life.fitted_km).toBe(Math.round(km));
      expect(one?.atMs).toBeGreaterThanOrEqual(ms);
    }
  });
});
