import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { type CommonWeek, estimateCommonMovement, type WeeklySeries } from './estimate-common-movement.ts';

const WEEKS = 60;
const VEHICLES = 40;
const NOISE_RPM = 3;

/** Vehicles with a level each and noise; a share of them, the first ones, drift upwards on their own from week 15 on. */
function makeVehicles(common: (week: number) => number, driftingShare: number, seed = 7): WeeklySeries[] {
  const { normal } = seededRandom(seed);
  return Array.from({ length: VEHICLES }, (_, v) => {
    const level = 15 + 5 * normal();
    const drifts = v < driftingShare * VEHICLES;
    return {
      byWeek: new Map(
        Array.from({ length: WEEKS }, (_week, week) => {
          const own = drifts ? 2.5 * Math.max(0, week - 15) : 0;
          return [week, level + own + common(week) + NOISE_RPM * normal()] as const;
        }),
      ),
    };
  });
}

const furthest = (found: readonly CommonWeek[], truth: (week: number) => number) =>
  Math.max(...found.map(({ week, movementRpm }) => Math.abs(movementRpm - truth(week))));

// Error of one week: a median of 34 vehicles, 1.25 * 3 / sqrt(34) = 0.65 rpm, plus that of the anchor of 6 weeks; the
// largest of 60 such is about 2.5 of them: 4 of them are allowed.
const ALLOWED_RPM = 4 * 0.72;

it('runs as its note says', () => {
  expect(estimateCommonMovement([])).toEqual([]);
});

it('finds no movement where there is none, with 15 % of the vehicles drifting', () => {
  const found = estimateCommonMovement(makeVehicles(() => 0, 0.15));
  expect(found).toHaveLength(WEEKS);
  expect(furthest(found, () => 0)).toBeLessThan(ALLOWED_RPM);
});

it('follows a season', () => {
  const season = (week: number) => 8 * Math.sin((2 * Math.PI * week) / 52);
  const start = [0, 1, 2, 3, 4, 5].map(season).sort((a, b) => a - b);
  const anchor = ((start[2] ?? 0) + (start[3] ?? 0)) / 2;
  const found = estimateCommonMovement(makeVehicles(season, 0.15));
  expect(furthest(found, (week) => season(week) - anchor)).toBeLessThan(ALLOWED_RPM);
});

it('follows a step of 25 rpm, and takes no part of the drift of 15 % of the vehicles', () => {
  const step = (week: number) => (week >= 30 ? 25 : 0);
  const found = estimateCommonMovement(makeVehicles(step, 0.15));
  expect(furthest(found, step)).toBeLessThan(ALLOWED_RPM);
});

it('leaves the drifting vehicles out of its count', () => {
  const found = estimateCommonMovement(makeVehicles(() => 0, 0.15));
  expect(found.at(-1)?.vehicles).toBe(VEHICLES - 6);
});

it('does not mind one wild vehicle, nor weeks that a vehicle was silent', () => {
  const step = (week: number) => (week >= 30 ? 25 : 0);
  const vehicles = makeVehicles(step, 0).map(({ byWeek }, v) => ({
    byWeek: new Map([...byWeek].filter(([week]) => (week + v) % 3 !== 0)),
  }));
  const wild = {
    byWeek: new Map(Array.from({ length: WEEKS }, (_, week) => [week, week % 2 === 0 ? 900 : 0])),
  };
  expect(furthest(estimateCommonMovement([...vehicles, wild]), step)).toBeLessThan(
    ALLOWED_RPM * Math.sqrt(1.5),
  );
});

it('carries the figure of the week before where fewer than 5 vehicles report', () => {
  const vehicles = makeVehicles((week) => (week >= 30 ? 25 : 0), 0).map(({ byWeek }, v) => ({
    byWeek: new Map([...byWeek].filter(([week]) => v < 4 || week !== 40)),
  }));
  const found = estimateCommonMovement(vehicles);
  const at = (week: number) => found.find((one) => one.week === week);
  expect(at(40)?.vehicles).toBe(4);
  expect(at(40)?.movementRpm).toBe(at(39)?.movementRpm);
});

it('says nothing with fewer than 8 vehicles that were seen for 4 weeks', () => {
  const vehicles = makeVehicles(() => 0, 0);
  expect(estimateCommonMovement(vehicles.slice(0, 7))).toEqual([]);
  const short = vehicles.map(({ byWeek }) => ({ byWeek: new Map([...byWeek].slice(0, 3)) }));
  expect(estimateCommonMovement(short)).toEqual([]);
});
