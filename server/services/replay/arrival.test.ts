import { expect, it } from 'vitest';
import { knownFromMs, tellArrival } from './arrival.ts';

const DAY_MS = 86_400_000;
const reading = (day: number, arrivedDay: number | null) => ({
  atMs: day * DAY_MS,
  arrivedMs: arrivedDay === null ? null : arrivedDay * DAY_MS,
});
const live = { firstArrivedMs: null };
/** Its history was loaded on day 400. */
const loaded = { firstArrivedMs: 400 * DAY_MS };

it.each([
  ['in time', reading(100, null), live, 'in_time', 100],
  ['ten days late', reading(100, 110), live, 'late', 110],
  ['30 days late', reading(100, 130), live, 'late', 130],
  ['over 30 days late, and so loaded', reading(100, 131), live, 'loaded', 100],
  ['loaded with the first delivery, though only ten days old', reading(390, 400), loaded, 'loaded', 390],
  ['loaded two days later', reading(390, 402), loaded, 'loaded', 390],
  ['late, long after the history came', reading(490, 500), loaded, 'late', 500],
] as const)('takes a reading %s for what it is', (_, one, vehicle, arrival, knownDay) => {
  expect(tellArrival(one, vehicle)).toBe(arrival);
  expect(knownFromMs(one, vehicle)).toBe(knownDay * DAY_MS);
});
