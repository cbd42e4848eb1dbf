import { expect, it } from 'vitest';
import { makeFlatCase, makeOutlook, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import { summariseCases } from './summarise-cases.ts';

it('runs as its note says', () => {
  const cases = [makeWearCase({ weight: 0.7 }), makeFlatCase({ weight: 0.3 })];
  expect(summariseCases(cases, 120_000).drifting).toBe(0.7);
});

it('sums each kind, and how much of the drift accelerates', () => {
  const summary = summariseCases(
    [
      makeWearCase({ weight: 0.3 }),
      makeWearCase({ growth: { law: 'power', value: 3 }, weight: 0.2 }),
      makeWearCase({ growth: { law: 'feedback', value: 5_000 }, weight: 0.1 }),
      makeStepCase({ weight: 0.1 }),
      makeFlatCase({ weight: 0.3 }),
    ],
    105_000,
  );
  expect(summary.drifting).toBeCloseTo(0.6, 12);
  expect(summary.accelerating).toBeCloseTo(0.5, 12);
  expect(summary).toMatchObject({ stepping: 0.1, jumpRpm: 50 });
});

// By hand: mean 0.5 * 85 + 0.5 * 20; variance within 1, between 32.5^2.
it('gives mean and spread of the level over all cases', () => {
  const { level, baseline } = summariseCases(
    [makeWearCase({ weight: 0.5 }), makeFlatCase({ weight: 0.5 })],
    105_000,
  );
  expect(level).toEqual({ mean: 52.5, sd: expect.closeTo(Math.sqrt(1 + 32.5 ** 2), 9) });
  expect(baseline).toEqual({ estimate: 20, low: expect.closeTo(18.04, 9), high: expect.closeTo(21.96, 9) });
});

// By hand: mean 0.25 * 80 + 0.75 * 100 = 95; variance within 4, between 0.25 * 15^2 + 0.75 * 5^2 = 75.
it('takes the level from the outlooks where it has them, and all else from the cases', () => {
  const outlooks = [
    makeOutlook({ levelRpm: 80, levelSd: 2, weight: 0.25 }),
    makeOutlook({ levelRpm: 100, levelSd: 2, weight: 0.75 }),
  ];
  const cases = [makeWearCase()];
  const [settled, plain] = [summariseCases(cases, 105_000, outlooks), summariseCases(cases, 105_000)];
  expect(settled.level).toEqual({ mean: 95, sd: expect.closeTo(Math.sqrt(79), 9) });
  expect({ ...settled, level: plain.level }).toEqual(plain);
});

it('tells onset and rate of the drifting cases', () => {
  const summary = summariseCases(
    [
      makeWearCase({ onsetKm: 99_000, weight: 0.1 }),
      makeWearCase({ weight: 0.5 }),
      makeWearCase({ onsetKm: 101_000, weight: 0.1 }),
      makeFlatCase({ weight: 0.3 }),
    ],
    105_000,
  );
  expect(summary.onset).toEqual({ low: 99_000, estimate: 100_000, high: 101_000 });
  expect(summary.driftRpmPerKm?.estimate).toBeCloseTo(65 / 5_000, 12);
});

it('tells the onset of the jump where that weighs more', () => {
  const cases = [makeStepCase({ onsetKm: 97_000, weight: 0.6 }), makeWearCase({ weight: 0.4 })];
  expect(summariseCases(cases, 105_000).onset?.estimate).toBe(97_000);
});

it('has no onset and no rate where nothing changed', () => {
  expect(summariseCases([makeFlatCase()], 105_000)).toMatchObject({
    drifting: 0,
    stepping: 0,
    accelerating: 0,
    onset: null,
    driftRpmPerKm: null,
    jumpRpm: 0,
  });
});

it('does not let the healthy slip fall below 0', () => {
  expect(summariseCases([makeFlatCase({ baselineRpm: 2, baselineSd: 5 })], 105_000).baseline.low).toBe(0);
});
