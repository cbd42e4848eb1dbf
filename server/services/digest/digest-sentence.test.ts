import { expect, it } from 'vitest';
import { digestSentence } from './digest-sentence.ts';

const many = (n: number) => Array.from({ length: n }, () => ({}) as never);
const told = (changes: Partial<Parameters<typeof digestSentence>[0]> = {}) =>
  digestSentence({
    uncovered_holds: [],
    newly_on_hold: [],
    got_worse: [],
    got_worse_more: 0,
    newly_booked: [],
    inspected: [],
    gone_quiet: { vehicles: [], vehicles_longer: 3, gateways: [] },
    as_of: '2026-03-04T00:00:00Z',
    ...changes,
  });

it('says what there is, the most urgent first, and nothing of what there is not', () => {
  expect(told({ uncovered_holds: many(2), newly_on_hold: many(1), got_worse: many(4) })).toBe(
    '2 vehicles wait on hold without a day, 1 went on hold and 4 got worse.',
  );
  expect(told({ inspected: many(1) })).toBe('1 vehicle was inspected.');
  expect(told({ got_worse: many(15), got_worse_more: 5, newly_booked: many(1) })).toBe(
    '20 vehicles got worse and 1 was booked.',
  );
});

it('says so where nothing happened, or nothing is known', () => {
  expect(told()).toBe('Nothing new: no vehicle went on hold or got worse, and none was booked.');
  expect(told({ as_of: null })).toBe('No vehicle has been assessed yet.');
});
