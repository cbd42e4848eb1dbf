import { expect, it } from 'vitest';
import { placeSeatings } from './place-seatings.ts';

const question = {
  days: [{ gaps: [{ bay: 2, fromQuarter: 40, toQuarter: 76 }], extra: { fromQuarter: 40, toQuarter: 76 } }],
  candidates: [
    { hold: false, quarters: 8, values: [900] },
    { hold: true, quarters: 12, values: [-180] },
    { hold: false, quarters: 4, values: [50] },
  ],
};

it('places one after the other from the beginning of the gap, those on hold first, then the dearest', () => {
  expect(placeSeatings(question, [{ day: 0, gap: 0, candidates: [2, 0, 1] }])).toEqual([
    { candidate: 1, day: 0, bay: 2, fromQuarter: 40, toQuarter: 52 },
    { candidate: 0, day: 0, bay: 2, fromQuarter: 52, toQuarter: 60 },
    { candidate: 2, day: 0, bay: 2, fromQuarter: 60, toQuarter: 64 },
  ]);
});
