import { expect, it } from 'vitest';
import { sayState } from './say-state.ts';

const event = (at: string, size_rpm: number) => ({ at, size_rpm, vehicles: 71, sentence: '' });

it('names the steps, dated and sized', () => {
  const events = [event('2026-05-12T23:30:00Z', 24.8), event('2025-11-03T00:00:00Z', -12)];
  expect(sayState({ state: 'learned', events })).toEqual([
    '12 May 2026: +25 rpm on 71 vehicles',
    '3 Nov 2025: −12 rpm on 71 vehicles',
  ]);
});

it.each([
  ['learned', 'no step found'],
  ['not_yet', 'nothing assessed yet'],
  ['too_few_vehicles', 'too few vehicles to tell'],
  ['too_few_weeks', 'too few weeks to tell'],
] as const)('says of %s without steps: %s', (state, words) => {
  expect(sayState({ state, events: [] })).toEqual([words]);
});
