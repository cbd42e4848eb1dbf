import { expect, it } from 'vitest';
import { makeFlatCase, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { measureYouth } from './measure-youth.ts';

it('runs as its note says', () => {
  expect(measureYouth([makeWearCase({ onsetKm: 100_000 })], 106_000)).toBeCloseTo(0.5, 12);
});

it('falls from 1 at the onset to 0 after 12,000 km, and stays there', () => {
  const at = (nowKm: number) => measureYouth([makeWearCase({ onsetKm: 100_000 })], nowKm);
  expect([98_000, 100_000, 103_000, 112_000, 150_000].map(at)).toEqual([1, 1, 0.75, 0, 0]);
});

// By hand: (0.3 * 1 + 0.1 * 0.5) / 0.4.
it('is the mean over drift and jumps, whatever speaks for no change', () => {
  const cases = [
    makeWearCase({ onsetKm: 106_000, weight: 0.3 }),
    makeStepCase({ onsetKm: 100_000, weight: 0.1 }),
    makeFlatCase({ weight: 0.6 }),
  ];
  expect(measureYouth(cases, 106_000)).toBeCloseTo(0.875, 12);
});

it('is 0 where nothing has risen', () => {
  expect(measureYouth([makeFlatCase()], 106_000)).toBe(0);
  expect(measureYouth([], 106_000)).toBe(0);
});
