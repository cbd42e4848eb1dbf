import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { findFleetEvents } from './find-fleet-events.ts';

const NOISE_RPM = 0.7;

function makeWeeks(n: number, curve: (week: number) => number, seed = 1) {
  const { normal } = seededRandom(seed);
  return Array.from({ length: n }, (_, i) => ({
    week: 2_850 + i,
    movementRpm: curve(i) + NOISE_RPM * normal(),
    vehicles: 20 + i,
  }));
}
const step = (at: number, size: number) => (week: number) => (week >= at ? size : 0);

it('runs as its note says', () => {
  expect(findFleetEvents([])).toEqual([]);
});

// The size is a difference of two medians of 4: error 0.7 * 1.1 * sqrt(2 / 4) = 0.55 rpm; 4 of them. The moment follows
// from one week's figure over the step: error 0.7 * 1.25 / 18 = 0.05 weeks; 5 of them.
it.each([25, -18])('dates and sizes a step of %d rpm', (size) => {
  for (let seed = 1; seed <= 10; seed++) {
    const events = findFleetEvents(makeWeeks(52, step(24, size), seed));
    expect(events).toHaveLength(1);
    expect(Math.abs((events[0]?.sizeRpm ?? 0) - size)).toBeLessThan(2.2);
    expect(Math.abs((events[0]?.week ?? 0) - 2_874)).toBeLessThan(0.25);
  }
});

it('tells the moment within the week from how far that week had gone', () => {
  const midweek = (week: number) => (week > 24 ? 25 : week === 24 ? 25 * 0.3 : 0);
  const [event] = findFleetEvents(makeWeeks(52, midweek));
  expect(Math.abs((event?.week ?? 0) - 2_874.7)).toBeLessThan(0.2);
  expect(event?.vehicles).toBe(44);
});

it('finds two steps, in order of time', () => {
  const events = findFleetEvents(makeWeeks(70, (week) => step(20, 25)(week) + step(45, -12)(week)));
  expect(events.map(({ sizeRpm }) => Math.sign(sizeRpm))).toEqual([1, -1]);
});

it.each([12, 17, 20, 26, 52, 104])('finds a step of 25 rpm in the middle of %d weeks', (n) => {
  for (let seed = 1; seed <= 10; seed++)
    expect(findFleetEvents(makeWeeks(n, step(Math.floor(n / 2), 25), seed))).toHaveLength(1);
});

it.each([
  ['noise', () => 0],
  ['a season', (week: number) => 8 * Math.sin((2 * Math.PI * week) / 52)],
  ['a slow rise', (week: number) => 0.3 * week],
])('finds none in %s', (_, curve) => {
  let found = 0;
  for (let seed = 1; seed <= 50; seed++)
    for (const n of [17, 30, 60, 104]) found += findFleetEvents(makeWeeks(n, curve, seed)).length;
  expect(found).toBe(0);
});

it('leaves a small step alone', () => {
  expect(findFleetEvents(makeWeeks(52, step(24, 4)))).toEqual([]);
});

it('gives none for fewer than 8 weeks', () => {
  expect(findFleetEvents(makeWeeks(7, step(3, 25)))).toEqual([]);
});
