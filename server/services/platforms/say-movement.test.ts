import { describe, expect, it } from 'vitest';
import { estimateCommonMovement, LEAST_VEHICLES } from '#server/engine/platform/estimate-common-movement.ts';
import { sayEvent, sayMeaning, saySeason } from './say-movement.ts';

const step = { at: new Date('2026-05-12T09:00:00Z'), sizeRpm: 24.8, vehicles: 71 };
const weeks = [
  { ms: Date.UTC(2025, 8, 22), rpm: 0 },
  { ms: Date.UTC(2025, 8, 29), rpm: -1.2 },
];
const meaning = { state: 'learned', hasPlatform: true, learnedFrom: 9, events: [], weeks } as const;

it('dates and sizes a step', () => {
  expect(sayEvent(step)).toBe('12 May 2026: +25 rpm at once on 71 vehicles; taken out of each vehicle');
  expect(sayEvent({ ...step, sizeRpm: -12.3 })).toMatch(/: -12 rpm at once/);
});

it('speaks of a season only as far as it was measured', () => {
  expect(saySeason({ state: 'measured', amplitudeRpm: 4, errorRpm: 0.1, highestMonth: 6 })).toMatch(
    /^Slip swings by 8 rpm over a year and is highest in July;/,
  );
  expect(saySeason({ state: 'not_seen', errorRpm: 0.1 })).not.toMatch(/swings/);
  expect(saySeason({ state: 'too_short' })).toMatch(/two years/);
});

describe('what it means for the list', () => {
  it('is that steps are taken out', () => {
    expect(sayMeaning({ ...meaning, events: [step] })).toBe(
      'No place on the inspection list rests on what all vehicles of this platform did together: the step of +25 rpm on 12 May 2026 is taken out of every vehicle before it is judged.',
    );
    expect(sayMeaning({ ...meaning, events: [step, step] })).toMatch(/the 2 steps are taken out of every/);
  });

  it('is how far all moved where there was no step', () => {
    expect(sayMeaning(meaning)).toMatch(/have moved by 2 rpm at most since 22 Sept? 2025, with no step/);
    expect(sayMeaning({ ...meaning, weeks: [{ ms: 0, rpm: 0.3 }] })).toMatch(/by less than 1 rpm/);
  });

  it('is what is lacking where nothing was learned', () => {
    expect(sayMeaning({ ...meaning, state: 'too_few_vehicles', learnedFrom: 1, hasPlatform: false })).toMatch(
      /^With readings of 1 vehicle, what moves all vehicles without a platform cannot.*: 8 are needed/,
    );
    expect(sayMeaning({ ...meaning, state: 'too_few_weeks' })).toMatch(/too few weeks/);
    expect(sayMeaning({ ...meaning, state: 'not_yet' })).toMatch(/^Nothing is known/);
  });

  it('asks for as many vehicles as the engine does', () => {
    const vehicles = (n: number) =>
      Array.from({ length: n }, () => ({ byWeek: new Map([1, 2, 3, 4, 5].map((week) => [week, 10])) }));
    expect(estimateCommonMovement(vehicles(LEAST_VEHICLES - 1))).toEqual([]);
    expect(estimateCommonMovement(vehicles(LEAST_VEHICLES))).toHaveLength(5);
  });
});
