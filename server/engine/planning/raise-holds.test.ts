import { expect, it } from 'vitest';
import { makeDepotQuestion } from '#tests/helpers/make-depot-question.ts';
import { countHolds, expectToFit } from '#tests/helpers/seating-rules.ts';
import { raiseHolds } from './raise-holds.ts';

const bay = makeDepotQuestion(1, {
  candidates: 0,
  days: 1,
  bays: 1,
  openQuarters: 36,
  lengths: [8],
  holdShare: 0,
  bookedShare: 0,
  awayShare: 0,
});
const question = {
  ...bay,
  candidates: [
    { hold: true, quarters: 32, values: [5_000] },
    { hold: true, quarters: 12, values: [10] },
    { hold: true, quarters: 16, values: [20] },
    { hold: false, quarters: 4, values: [7_000] },
  ],
};
const begun = [{ day: 0, gap: 0, candidates: [0, 3] }];

it('runs as its note says', () => {
  expect(raiseHolds({ days: [], candidates: [] }, [], 0)).toEqual([]);
});

it('gives the bay of one long inspection to two short ones, and keeps the rest', () => {
  const raised = raiseHolds(question, begun, 2);
  expectToFit(question, raised);
  expect(raised[0]?.candidates.toSorted()).toEqual([1, 2, 3]);
});

it('leaves what has enough on hold, and ends where no trade helps', () => {
  expect(raiseHolds(question, begun, 1)).toBe(begun);
  expect(countHolds(question, raiseHolds(question, begun, 9))).toBe(2);
});
