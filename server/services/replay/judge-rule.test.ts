import { describe, expect, it } from 'vitest';
import { newDayTable } from './day-columns.ts';
import { judgeRule } from './judge-rule.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';

const DAY_MS = 86_400_000;
const DAYS = 182;
const KM_A_DAY = 150;
const dayEndMs = Array.from({ length: DAYS }, (_, i) => (i + 1) * DAY_MS);
const how = { dayEndMs, horizonKm: 5_000 };
const costs = { avoided: 7_000, inspection: 400 };

/** Drives 150 km on each day; where it fails, then on the end of a day. */
function makeVehicle(vehicle: number, failsOn: number | null, clearedOn: number[] = []): ReplayedVehicle {
  const days = newDayTable(DAYS);
  days.km = days.km.map((_, day) => (day + 1) * KM_A_DAY);
  days.life.fill(1);
  const at = (failsOn ?? 0) * DAY_MS;
  return {
    ...{ vehicle, unit: `V-${vehicle}`, platform: 'p', depot: null, days, readings: 1, late: 0, loaded: 0 },
    courses: [
      {
        life: 1,
        event:
          failsOn === null
            ? null
            : { what: 'failed', mode: null, km: failsOn * KM_A_DAY, atMs: at, knownMs: at },
        lastKm: (failsOn ?? DAYS) * KM_A_DAY,
        risenShare: 0,
        clearedMs: clearedOn.map((day) => day * DAY_MS),
        firstKm: 0,
        isCutShort: false,
      },
    ],
  };
}

function judge(vehicles: ReplayedVehicle[], asks: (vehicle: ReplayedVehicle, day: number) => boolean) {
  const failures = vehicles.flatMap((vehicle, place) =>
    vehicle.courses.flatMap(({ event, ...course }) =>
      event === null ? [] : [{ vehicle, place, course: { ...course, event } }],
    ),
  );
  const asksOf = (i: number) =>
    dayEndMs.map((_, day) => Number(vehicles.slice(i, i + 1).some((one) => asks(one, day))));
  return judgeRule(vehicles, failures, asksOf, how, () => costs);
}

/** Kilometres from the end of a day to the failure. */
const kmBefore = ({ courses, days }: ReplayedVehicle, day: number) =>
  (courses[0]?.event?.km ?? Number.POSITIVE_INFINITY) - (days.km[day] ?? 0);

describe('a fleet of 100, of which every tenth fails', () => {
  const fleet = Array.from({ length: 100 }, (_, i) => makeVehicle(i, i % 10 === 0 ? 20 + 1.7 * i : null));
  const wise = judge(fleet, (one, day) => kmBefore(one, day) <= 3_000 && kmBefore(one, day) >= 0).score;

  it('is judged as ever for a list that asks 3,000 km before: one inspection for each failure', () => {
    expect(wise).toMatchObject({ asked: 10, found: 10, missed: 0, right: 10, early: 0, needless: 0 });
    expect(wise).toMatchObject({ avoided: 70_000, spent: 4_000, saved: 66_000 });
    // 20 days of 150 km, but for the one that fails on day 20, of which only 19 ends of days lie before.
    expect(wise.notice_km).toEqual({ p10: 2_850, p50: 3_000, p90: 3_000 });
  });

  it('pays an inspection a horizon for asking of all always, with no notice beyond it', () => {
    const { score, warnings } = judge(fleet, () => true);
    expect(score).toMatchObject({ found: 10, missed: 0, right: 10 });
    // By hand: day 1, then every 34th, the first at which 5,000 km are driven: six each of those that do not fail.
    expect(score.asked).toBeGreaterThan(90 * 6);
    expect(score.right + score.early + score.needless + score.undecided).toBe(score.asked);
    expect(score.needless).toBe(90 * 5);
    expect(score.undecided).toBe(90);
    expect(Math.max(...warnings.map((one) => one?.noticeKm ?? 0))).toBeLessThanOrEqual(5_000);
    expect(score.saved).toBeLessThan(-100_000);
    expect(wise.saved).toBeGreaterThan(score.saved);
  });

  it('pays as much for asking on one day in 14', () => {
    const { score } = judge(fleet, (_, day) => day % 14 === 0);
    expect(score.asked).toBeGreaterThan(400);
    expect(score.saved).toBeLessThan(-100_000);
  });
});

describe('a failure after a shop found no fault', () => {
  const one = [makeVehicle(1, 60, [50])];
  const asked = (from: number, to: number) => judge(one, (_, day) => day >= from && day <= to).score;

  it('is missed where nobody asked again', () => {
    expect(asked(45, 49)).toMatchObject({ asked: 1, found: 0, missed: 1, right: 0, needless: 1 });
  });

  it('is found where it was asked for after, at the cost of another inspection', () => {
    const score = asked(45, 55);
    expect(score).toMatchObject({ asked: 2, found: 1, missed: 0, right: 1, needless: 1 });
    // Day 51 is the first whose end lies after the word of the shop.
    expect(score.notice_km?.p50).toBe((60 - 51) * KM_A_DAY);
  });
});
