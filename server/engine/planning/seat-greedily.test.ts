import { expect, it } from 'vitest';
import { makeDepotQuestion } from '#tests/helpers/make-depot-question.ts';
import { expectToFit } from '#tests/helpers/seating-rules.ts';
import { maySit } from './may-sit.ts';
import { seatGreedily } from './seat-greedily.ts';

const size = {
  candidates: 40,
  days: 5,
  bays: 2,
  openQuarters: 36,
  lengths: [8, 12, 20],
  holdShare: 0.3,
  bookedShare: 0.4,
  awayShare: 0.3,
};

it('runs as its note says', () => {
  expect(seatGreedily({ days: [], candidates: [] }, [])).toEqual([]);
});

it('fits, and leaves nobody out who would fit into what is left', () => {
  for (const seed of [1, 2, 3, 4, 5]) {
    const question = makeDepotQuestion(seed, size);
    const seatings = seatGreedily(question, []);
    expectToFit(question, seatings);
    const seated = new Set(seatings.flatMap((one) => one.candidates));
    expect(seated.size).toBeGreaterThan(15);
    for (const [i, candidate] of question.candidates.entries())
      for (const [day, { gaps }] of question.days.entries())
        for (const [gap, { fromQuarter, toQuarter }] of gaps.entries()) {
          const taken = seatings
            .filter((one) => one.day === day && one.gap === gap)
            .flatMap((one) => one.candidates)
            .reduce((sum, other) => sum + (question.candidates[other]?.quarters ?? 0), 0);
          const fits = toQuarter - fromQuarter - taken >= candidate.quarters;
          if (!seated.has(i)) expect(fits && maySit(candidate, question.days, day, false)).toBe(false);
        }
  }
});

it('keeps what is given, and puts those on hold before the dearer', () => {
  const question = makeDepotQuestion(6, { ...size, candidates: 0, days: 1, bays: 1, bookedShare: 0 });
  question.candidates = [
    { hold: false, quarters: 24, values: [9_000] },
    { hold: true, quarters: 12, values: [-180] },
    { hold: false, quarters: 12, values: [100] },
    { hold: true, quarters: 16, values: [50] },
  ];
  const [only] = seatGreedily(question, [{ day: 0, gap: 0, candidates: [2] }]);
  expect(only?.candidates).toEqual([2, 1]);
  expect(seatGreedily(question, [])[0]?.candidates).toEqual([1, 3]);
});
