import { expect, it } from 'vitest';
import { firstWarning } from './first-warning.ts';
import type { JudgedAsking, LifeEvent } from './replay-model.ts';

const DAY_MS = 86_400_000;
const ends = Array.from({ length: 60 }, (_, i) => (i + 1) * DAY_MS);
const event: LifeEvent = { what: 'failed', mode: null, km: 60_000, atMs: 50.5 * DAY_MS };
const asking = (fromDay: number, fromKm: number, verdict: JudgedAsking['verdict']): JudgedAsking => ({
  life: 1,
  fromDay,
  lastDay: fromDay + 3,
  fromKm,
  lastKm: fromKm + 300,
  isOpen: false,
  verdict,
  drivenKm: 0,
  isCleared: false,
});

it('runs as its note says', () => {
  expect(firstWarning([], event, ends)).toBeNull();
});

it('counts from the last asking that led to the failure', () => {
  const askings = [asking(5, 55_000, 'found'), asking(30, 57_500, 'found'), asking(40, 58_500, 'needless')];
  expect(firstWarning(askings, event, ends)).toEqual({ day: 30, noticeKm: 2_500, noticeDays: 19.5 });
});

it('has none where nothing that was asked for led to it', () => {
  expect(firstWarning([asking(5, 40_000, 'needless'), asking(55, 61_000, 'late')], event, ends)).toBeNull();
});

it('gives no notice below 0 km', () => {
  expect(firstWarning([asking(49, 60_400, 'found')], event, ends)?.noticeKm).toBe(0);
});
