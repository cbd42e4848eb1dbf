import { describe, expect, it } from 'vitest';
import type { ReplayVehicle } from '#db/queries/read-replay-vehicles.ts';
import { unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { platformSettings } from '#tests/helpers/engine-settings.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { tellCourses } from './tell-courses.ts';

const vehicle: ReplayVehicle = {
  vehicle: 1,
  unit: 'A-1',
  platform: 'p',
  depot: null,
  retired: false,
  retiredMs: null,
  firstReadingMs: 0,
  lastReadingMs: Date.UTC(2026, 0, 1),
  odometerKm: 130_000,
  firstStoredMs: 0,
  firstArrivedMs: null,
  steps: [],
  lives: [],
  packets: [],
};
/** Healthy, then towards the limit of 150 rpm, then healthy again with nothing on record: 20 stretches each. */
const slips = Array.from({ length: 60 }, (_, i) => (i < 20 || i >= 40 ? 12 : 12 + 6 * (i - 19)));
const rows = slips.map((rpm, i) => makeStretch(i, rpm));
const tell = (changes: Partial<ReplayVehicle> = {}, slipRows = rows) => {
  const { courses } = tellCourses(
    { ...vehicle, ...changes },
    slipRows,
    platformSettings,
    unknownPlatform,
    [],
    new Float64Array(),
  );
  return courses[0];
};

describe('a life whose slip fell back with no work on record', () => {
  it('was followed to the fall alone, without an event, and had risen', () => {
    const course = tell();
    expect(course).toMatchObject({ event: null, isCutShort: true, lastKm: 100_250 + 500 * 40 });
    expect(course?.risenShare).toBeGreaterThan(0.5);
  });

  it('has the event of the work where that is on record', () => {
    const packet = { id: 1, openedMs: 0, closedMs: 0, outcome: 'repaired' as const, cause: 'piston_seal' };
    const km = 100_250 + 500 * 39 + 200;
    const done = {
      odometerKm: km,
      workMs: 0,
      newLifeKm: null,
      calmUntilKm: null,
      calmSlipRpm: null,
      codes: [],
    };
    const course = tell({ packets: [{ ...packet, ...done }] });
    expect(course).toMatchObject({ event: { what: 'confirmed', km }, isCutShort: false });
  });
});

it('has the word of a shop in the life that it was given of, where the vehicle stood then', () => {
  const packet = { id: 1, openedMs: 0, workMs: 0, outcome: 'no_fault_found' as const, cause: null };
  const rest = { newLifeKm: null, calmUntilKm: null, calmSlipRpm: null, codes: [] };
  const life = {
    fittedAtMs: null,
    removedAtMs: null,
    ended: null,
    mode: null,
    source: 'new',
    supplier: null,
  };
  const { courses } = tellCourses(
    {
      ...vehicle,
      lives: [
        { ...life, fittedKm: 0, removedKm: 104_000 },
        { ...life, fittedKm: 104_000, removedKm: null },
      ],
      packets: [
        { ...packet, ...rest, odometerKm: 103_000, closedMs: 5 },
        { ...packet, ...rest, odometerKm: null, closedMs: vehicle.lastReadingMs },
      ],
    },
    rows,
    platformSettings,
    unknownPlatform,
    [],
    new Float64Array(),
  );
  expect(courses.map((one) => [one.life, one.clearedMs])).toEqual([
    [1, [5]],
    [2, [vehicle.lastReadingMs]],
  ]);
});

it('follows a life without a fall to its last kilometre', () => {
  const course = tell({}, rows.slice(0, 40));
  expect(course).toMatchObject({ event: null, isCutShort: false, lastKm: 130_000 });
});

it('has slip at the limit on three stretches as its event', () => {
  const past = [...rows.slice(0, 40), ...[155, 160, 165].map((rpm, i) => makeStretch(40 + i, rpm))];
  expect(tell({}, past)?.event).toMatchObject({ what: 'reached_limit', km: 100_250 + 500 * 40 });
});

describe('a failure without a day on record', () => {
  const life = {
    fittedKm: 0,
    fittedAtMs: null,
    removedAtMs: null,
    ended: 'failed' as const,
    mode: null,
    source: 'original',
    supplier: null,
  };
  const tellOf = (removedKm: number) => tell({ lives: [{ ...life, removedKm }] }, rows.slice(0, 20));

  it('came with the last reading, where the vehicle was never seen to come quite so far', () => {
    expect(tellOf(130_300)?.event).toMatchObject({
      what: 'failed',
      km: 130_300,
      atMs: vehicle.lastReadingMs,
    });
  });

  it('is of no known day, where it was driven far on unseen', () => {
    expect(tellOf(131_001)?.event).toBeNull();
  });
});
