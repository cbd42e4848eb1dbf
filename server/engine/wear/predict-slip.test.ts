import { expect, it } from 'vitest';
import { makeFlatCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { predictSlip } from './predict-slip.ts';

const WAY_SD = 0.6;

it('runs as its note says', () => {
  const cases = [makeWearCase({ onsetKm: 115_000, levelSd: 0 })];
  const [low = 0, middle, high = 0] = predictSlip(cases, 120_000, 125_000, 150, WAY_SD, [0.1, 0.5, 0.9]);
  expect(middle).toBe(150);
  expect(low).toBeLessThan(150);
  expect(high).toBeGreaterThan(150);
});

it('shows only the error of the level where it starts', () => {
  const [low = 0, middle, high = 0] = predictSlip(
    [makeWearCase()],
    105_000,
    105_000,
    150,
    WAY_SD,
    [0.1, 0.5, 0.9],
  );
  expect(middle).toBe(85);
  expect(high - 85).toBeCloseTo(1.2816, 12);
  expect(85 - low).toBeCloseTo(1.2816, 12);
});

it('opens with the way ahead', () => {
  const width = (atKm: number) => {
    const [low = 0, high = 0] = predictSlip([makeWearCase()], 105_000, atKm, 150, WAY_SD, [0.1, 0.9]);
    return high - low;
  };
  const widths = [105_000, 107_000, 110_000, 115_000].map(width);
  expect(widths).toEqual([...widths].sort((a, b) => a - b));
});

it('is no narrower for an uncertain level', () => {
  const width = (levelSd: number) => {
    const [low = 0, high = 0] = predictSlip(
      [makeWearCase({ levelSd })],
      105_000,
      108_000,
      150,
      WAY_SD,
      [0.1, 0.9],
    );
    return high - low;
  };
  const widths = [0, 2, 5, 10, 20].map(width);
  expect(widths).toEqual([...widths].sort((a, b) => a - b));
});

it('stays level where nothing grows', () => {
  const flat = makeFlatCase({ levelSd: 0 });
  expect(predictSlip([flat], 105_000, 140_000, 150, WAY_SD, [0.1, 0.9])).toEqual([20, 20]);
});
