import { expect, it } from 'vitest';
import { makeDepotQuestion } from '#tests/helpers/make-depot-question.ts';
import { countHolds, expectToFit, sumValue } from '#tests/helpers/seating-rules.ts';
import { seatGreedily } from './seat-greedily.ts';
import { swapSeats } from './swap-seats.ts';

it('runs as its note says', () => {
  expect(swapSeats({ days: [], candidates: [] }, [])).toEqual([]);
});

it('fits, has as many on hold, and is worth more wherever a swap gains', () => {
  let gained = 0;
  for (const seed of [1, 2, 3, 4, 5, 6]) {
    const question = makeDepotQuestion(seed, {
      candidates: 40,
      days: 6,
      bays: 1,
      openQuarters: 36,
      lengths: [5, 8, 12, 20],
      holdShare: 0.8,
      bookedShare: 0.4,
      awayShare: 0.3,
    });
    const begun = seatGreedily(question, []);
    const swapped = swapSeats(question, begun);
    expectToFit(question, swapped);
    expect(countHolds(question, swapped)).toBe(countHolds(question, begun));
    expect(sumValue(question, swapped)).toBeGreaterThanOrEqual(sumValue(question, begun));
    if (sumValue(question, swapped) > sumValue(question, begun)) gained += 1;
  }
  expect(gained).toBeGreaterThan(3);
});

it('takes nobody to a day on which it is worth nothing', () => {
  const days = [0, 1].map((day) => ({
    gaps: [{ bay: 1, fromQuarter: 96 * day, toQuarter: 96 * day + 8 }],
    extra: { fromQuarter: 96 * day, toQuarter: 96 * day + 8 },
  }));
  const candidates = [
    { hold: false, quarters: 8, values: [100, -50] },
    { hold: false, quarters: 8, values: [900, 10] },
  ];
  const begun = [
    { day: 0, gap: 0, candidates: [0] },
    { day: 1, gap: 0, candidates: [1] },
  ];
  expect(swapSeats({ days, candidates }, begun)).toEqual([{ day: 0, gap: 0, candidates: [1] }]);
});
