import { describe, expect, it } from 'vitest';
import { judgeAsking } from './judge-asking.ts';
import type { Asking, LifeCourse, LifeEvent } from './replay-model.ts';

const DAY_MS = 86_400_000;
/** Ends of 60 days; the vehicle drives 100 km on each. */
const ends = Array.from({ length: 60 }, (_, i) => (i + 1) * DAY_MS);
/** On the list from day 10, at 51,000 km, to day 20. */
const asking: Asking = {
  ...{ life: 1, fromDay: 10, lastDay: 20, fromKm: 51_000, lastKm: 52_000 },
  ...{ isOpen: false, nextDay: null },
};
const course: LifeCourse = { life: 1, event: null, lastKm: 90_000, risenShare: 0, clearedMs: [] };
const event = (day: number, km: number): LifeEvent => ({
  what: 'failed',
  mode: null,
  km,
  atMs: day * DAY_MS,
  knownMs: day * DAY_MS,
});
const judge = (changes: Partial<LifeCourse>, over: Partial<Asking> = {}) =>
  judgeAsking({ ...asking, ...over }, { ...course, ...changes }, { dayEndMs: ends, horizonKm: 3_000 });

it('runs as its note says', () => {
  expect(
    judgeAsking(
      asking,
      { life: 1, event: null, lastKm: 90_000, risenShare: 0, clearedMs: [] },
      { dayEndMs: ends, horizonKm: 5_000 },
    ).verdict,
  ).toBe('needless');
});

describe('an event', () => {
  it('is found while the asking stands, however far the vehicle has driven since it began', () => {
    expect(judge({ event: event(20, 60_000) }).verdict).toBe('found');
  });
  it('is found within 14 days after the last day that asked, and not later beyond the horizon', () => {
    expect(judge({ event: event(35, 54_500) }).verdict).toBe('found');
    expect(judge({ event: event(36, 54_500) }).verdict).toBe('early');
  });
  it('is found within the horizon from where the asking began', () => {
    expect(judge({ event: event(50, 54_000) }).verdict).toBe('found');
    expect(judge({ event: event(50, 54_001) }).verdict).toBe('early');
  });
  it('is found within those 14 days no further than the horizon from the last day', () => {
    expect(judge({ event: event(34, 55_000) }).verdict).toBe('found');
    expect(judge({ event: event(34, 55_001) }).verdict).toBe('early');
  });
  it('is judged alike where the asking still stood when the days ended', () => {
    expect(judge({ event: event(70, 54_000) }, { isOpen: true }).verdict).toBe('found');
    expect(judge({ event: event(70, 54_001) }, { isOpen: true }).verdict).toBe('early');
  });
  it('that came once the next asking had taken over is that of the next', () => {
    expect(judge({ event: event(21.5, 54_100) }, { nextDay: 21 }).verdict).toBe('found');
    expect(judge({ event: event(22.5, 54_100) }, { nextDay: 21 }).verdict).toBe('early');
  });
  it('that came before leaves the asking late: nobody could have been warned', () => {
    expect(judge({ event: event(10, 50_900) }).verdict).toBe('late');
  });
});

describe('nothing', () => {
  it('makes it needless once the horizon is driven, undecided before', () => {
    expect(judge({ lastKm: 54_000 })).toMatchObject({
      verdict: 'needless',
      drivenKm: 3_000,
      isCleared: false,
    });
    expect(judge({ lastKm: 53_999 })).toMatchObject({ verdict: 'undecided', drivenKm: 2_999 });
  });
  it('came yet, but slip has risen by a quarter of the way: early, not needless', () => {
    expect(judge({ risenShare: 0.25 }).verdict).toBe('early');
    expect(judge({ risenShare: 0.24 }).verdict).toBe('needless');
    expect(judge({ risenShare: null }).verdict).toBe('needless');
    expect(judge({ risenShare: 0.9, lastKm: 53_999 }).verdict).toBe('undecided');
  });
  it('found by a shop makes it needless at once', () => {
    const clearedMs = [15 * DAY_MS];
    expect(judge({ lastKm: 51_400, clearedMs })).toMatchObject({ verdict: 'needless', isCleared: true });
    expect(judge({ lastKm: 51_400, clearedMs: [5 * DAY_MS] }).verdict).toBe('undecided');
    expect(judge({ lastKm: 53_999, clearedMs: [45 * DAY_MS] }).isCleared).toBe(true);
    expect(judge({ clearedMs: [45 * DAY_MS], risenShare: 0.9 })).toMatchObject({
      verdict: 'early',
      isCleared: false,
    });
  });
});

describe('a shop that found no fault', () => {
  it('ends the asking: a failure that comes after it was not found by it', () => {
    const found = judge({ clearedMs: [28 * DAY_MS], event: event(30, 53_000) });
    expect(found).toMatchObject({ verdict: 'needless', isCleared: true });
    const long = judge({ clearedMs: [40 * DAY_MS], event: event(50, 54_000) });
    expect(long).toMatchObject({ verdict: 'needless', isCleared: true });
  });
  it('leaves the next asking to find it', () => {
    const next = { fromDay: 29, lastDay: 29, fromKm: 52_900, lastKm: 52_900 };
    expect(judge({ clearedMs: [28 * DAY_MS], event: event(40, 53_000) }, next).verdict).toBe('found');
  });
  it('takes nothing from what had come before it', () => {
    const clearedMs = [30 * DAY_MS];
    expect(judge({ clearedMs, event: event(29, 53_000) })).toMatchObject({
      verdict: 'found',
      isCleared: false,
    });
  });
});
