import { expect, it } from 'vitest';
import { firstWarning } from './first-warning.ts';
import type { JudgedAsking, LifeEvent } from './replay-model.ts';

const DAY_MS = 86_400_000;
const ends = Array.from({ length: 60 }, (_, i) => (i + 1) * DAY_MS);
const event: LifeEvent = {
  what: 'failed',
  mode: null,
  km: 60_000,
  atMs: 50.5 * DAY_MS,
  knownMs: 50.5 * DAY_MS,
};
/** Day d ends at 54,500 + 100 d km, day 30 at 57,500. */
const days = { km: Array.from({ length: 60 }, (_, i) => 54_500 + 100 * i) };
const how = { dayEndMs: ends, horizonKm: 5_000 };
const asking = (fromDay: number, verdict: JudgedAsking['verdict']): JudgedAsking => ({
  life: 1,
  fromDay,
  lastDay: fromDay + 3,
  fromKm: 54_500 + 100 * fromDay,
  lastKm: 54_800 + 100 * fromDay,
  isOpen: false,
  nextDay: null,
  verdict,
  drivenKm: 0,
  isCleared: false,
});

it('runs as its note says', () => {
  expect(firstWarning([], event, days, how)).toBeNull();
});

it('counts from the last asking that led to the failure', () => {
  const askings = [asking(5, 'found'), asking(30, 'found'), asking(40, 'needless')];
  expect(firstWarning(askings, event, days, how)).toEqual({ day: 30, noticeKm: 2_500, noticeDays: 19.5 });
});

it('has none where nothing that was asked for led to it', () => {
  expect(firstWarning([asking(5, 'needless'), asking(55, 'late')], event, days, how)).toBeNull();
});

it('gives no notice below 0 km', () => {
  const early = { ...event, km: 59_300 };
  expect(firstWarning([asking(49, 'found')], early, days, how)?.noticeKm).toBe(0);
});

it('gives none beyond the horizon: it counts from the first day within it', () => {
  const far = { ...event, km: 58_000 };
  const found = firstWarning([asking(29, 'found')], far, days, { ...how, horizonKm: 450 });
  expect(found).toEqual({ day: 31, noticeKm: 400, noticeDays: 18.5 });
  expect(firstWarning([asking(29, 'found')], event, days, { ...how, horizonKm: 450 })?.noticeKm).toBe(450);
});

it('goes back over the horizons that the vehicle stood without a break, but not over the word of a shop', () => {
  const first = { ...asking(10, 'early'), lastDay: 29, nextDay: 30 };
  const wide = { ...how, horizonKm: 4_000 };
  expect(firstWarning([first, asking(30, 'found')], event, days, wide)).toMatchObject({
    noticeKm: 4_000,
    day: 15,
  });
  const cleared = { ...first, verdict: 'needless' as const, isCleared: true };
  expect(firstWarning([cleared, asking(30, 'found')], event, days, wide)).toMatchObject({ noticeKm: 2_500 });
});
