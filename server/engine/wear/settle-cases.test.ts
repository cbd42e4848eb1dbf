import { describe, expect, it } from 'vitest';
import { makeFlatCase, makeOutlookRules, makeStepCase, makeWearCase } from '#tests/helpers/make-wear-case.ts';
import type { OutlookRules } from './outlook.ts';
import { settleCases } from './settle-cases.ts';
import { wayLeft } from './way-left.ts';
import type { WearPoint } from './wear-model.ts';

/** Ten points from 100,500 to 105,000 km that lie `offRpm` off linear wear from 20 rpm to 150 in 10,000 km. */
const pointsOff = (offRpm: number, variance = 1): WearPoint[] =>
  Array.from({ length: 10 }, (_, i) => {
    const km = 100_500 + 500 * i;
    return { km, slipRpm: 20 + (130 * (km - 100_000)) / 10_000 + offRpm, variance };
  });
const pointsAt = (slipRpm: number) => pointsOff(0).map((point) => ({ ...point, slipRpm }));
const settle = (offRpm: number, variance?: number, changes: Partial<OutlookRules> = {}) =>
  settleCases([makeWearCase()], pointsOff(offRpm, variance), makeOutlookRules(changes))[0]!;

it('runs as its note says', () => {
  const flatPoints = pointsAt(20);
  const rules = makeOutlookRules();
  expect(settleCases([makeFlatCase()], flatPoints, rules)[0]?.spanKm).toBe(Number.POSITIVE_INFINITY);
});

it('leaves a case alone that its last points lie on', () => {
  expect(settle(0)).toMatchObject({ levelRpm: 85, goneKm: 5_000, spanKm: 10_000, waySd: 0.6, weight: 1 });
});

// By hand: prior sd 2 + 0.2 * 65 = 15, variance 225; the last five points of variance 1 have 1 / 5; share 225 / 225.2.
// 13 rpm are a tenth of the way: 1,000 km.
it('moves the level to sharp points, and what is left of the way with it', () => {
  const settled = settle(-13);
  const share = 225 / 225.2;
  expect(settled.levelRpm).toBeCloseTo(85 - 13 * share, 9);
  expect(wayLeft(settled, 150)).toBeCloseTo(5_000 + 1_000 * share, 6);
  expect(settled.levelSd).toBeCloseTo(Math.sqrt(1 + share / 5), 9);
});

// By hand: variance 1,125 each, 225 of five: as much as the prior, so half of the way.
it('moves half of the way where points are as vague as the prior', () => {
  expect(settle(-13, 1_125).levelRpm).toBeCloseTo(85 - 6.5, 9);
});

// By hand: with so sharp points the level is theirs, 85 + 20 rpm: 65 - 20 = 45 rpm at 13 rpm per 1,000 km.
it('brings the end nearer where slip stands above its path', () => {
  expect(wayLeft(settle(20, 1e-6), 150)).toBeCloseTo(45_000 / 13, 3);
});

// By hand: cubic wear stands at 20 + 130 / 8 = 36.25 rpm half way; points at 20 + 130 * 27 / 64 are at 3/4 of the way.
it('finds the place of the level on a curved path', () => {
  const growth = { law: 'power', value: 3 } as const;
  const cubic = makeWearCase({ growth, levelRpm: 36.25 });
  const points = pointsAt(0).map((point) => {
    const path = 20 + 130 * ((point.km - 100_000) / 10_000) ** 3;
    return { ...point, slipRpm: path + 130 * (27 / 64 - 1 / 8), variance: 1e-6 };
  });
  const settled = settleCases([cubic], points, makeOutlookRules())[0];
  expect(settled?.goneKm).toBeCloseTo(7_500, 2);
  expect(settled?.growth).toEqual(growth);
});

it('never falls to the healthy slip', () => {
  const settled = settle(-500);
  expect(settled.levelRpm).toBe(21);
  expect(settled.goneKm).toBeCloseTo(10_000 / 130, 9);
});

it('keeps a path that has not begun: so many kilometres before its onset', () => {
  const later = makeWearCase({ onsetKm: 106_000, levelRpm: 20 });
  const settled = settleCases([later], pointsOff(0), makeOutlookRules({ raggedRpm: 50, levelShare: 0.5 }));
  expect(settled).toEqual([
    {
      weight: 1,
      baselineRpm: 20,
      levelRpm: 20,
      levelSd: 1,
      growth: later.growth,
      goneKm: -1_000,
      spanKm: 10_000,
      waySd: 0.6,
    },
  ]);
});

describe('what misleads as a whole', () => {
  // By hand: a tenth of 65 rpm, 6.5, at -sqrt(3/2), 0 and sqrt(3/2) of it.
  it('makes three of a case, of the same mean and with that much spread, each at its place on the path', () => {
    const three = settleCases([makeWearCase()], pointsOff(0), makeOutlookRules({ levelShare: 0.1 }));
    const off = 6.5 * Math.sqrt(1.5);
    expect(three.map((one) => one.weight)).toEqual([1 / 3, 1 / 3, 1 / 3]);
    [85 - off, 85, 85 + off].forEach((level, i) => {
      expect(three[i]?.levelRpm).toBeCloseTo(level, 9);
      expect(three[i]?.goneKm).toBeCloseTo(((level - 20) / 130) * 10_000, 6);
    });
    const variance = three.reduce((sum, one) => sum + one.weight * (one.levelRpm - 85) ** 2, 0);
    expect(variance).toBeCloseTo(6.5 ** 2, 9);
  });

  it('is left out where it is below 1 rpm', () => {
    const settled = settleCases([makeWearCase()], pointsOff(0), makeOutlookRules({ levelShare: 0.015 }));
    expect(settled).toHaveLength(1);
  });
});

describe('a rise in jumps', () => {
  // By hand: 65 rpm are left; jumps of 13 make ln(1 + 13 / 65) = ln 1.2 of variance.
  it('spreads the way left, the more the fewer jumps are left', () => {
    expect(settle(0, 1, { raggedRpm: 13 }).waySd).toBeCloseTo(Math.sqrt(0.36 + Math.log(1.2)), 9);
    expect(settle(30, 1, { raggedRpm: 13 }).waySd).toBeGreaterThan(settle(0, 1, { raggedRpm: 13 }).waySd);
  });

  it('spreads it by no more than 1.2', () => {
    expect(settle(0, 1, { raggedRpm: 1_000 }).waySd).toBe(1.2);
  });
});

it('has no way to go where healthy slip is already the limit', () => {
  for (const baselineRpm of [149.5, 150, 240]) {
    const cases = [
      makeWearCase({ baselineRpm, levelRpm: 260 }),
      makeStepCase({ baselineRpm, levelRpm: 260 }),
    ];
    for (const one of settleCases(cases, pointsAt(260), makeOutlookRules())) {
      expect(one.spanKm).toBe(Number.POSITIVE_INFINITY);
      expect(wayLeft(one, 150)).toBe(0);
    }
  }
});

describe('a jump', () => {
  const settleStep = (slipRpm: number, changes: Partial<OutlookRules> = {}) =>
    settleCases([makeStepCase()], pointsAt(slipRpm), makeOutlookRules(changes))[0]!;

  // By hand: h = 50 / 130 of the way 5,000 km ago. Its prior rate, Gamma of shape 4 about one in h * 14,600 km (0.73
  // of 20,000), becomes one in h * 14,600 + 5,000 / 4 = 6,865.4 km. Left are (1 - h) / h = 1.6 jumps: 10,984.6 km.
  it('goes on in such jumps', () => {
    const settled = settleStep(70);
    expect(settled).toMatchObject({ levelRpm: 70, growth: { law: 'power', value: 1 } });
    expect(wayLeft(settled, 150)).toBeCloseTo(10_984.6154, 3);
  });

  // By hand: one jump of 50 rpm, 80 rpm left: variance ln(1 + 50 / 80), whatever is usual.
  it('strays by its own height', () => {
    const variance = 0.36 + Math.log1p(50 / 80);
    expect(settleStep(70, { raggedRpm: 3 }).waySd).toBeCloseTo(Math.sqrt(variance), 9);
  });

  // By hand: prior sd 2 + 0.2 * 50 = 12, variance 144; share 144 / 144.2.
  it('is raised where slip has gone on', () => {
    expect(settleStep(95).levelRpm).toBeCloseTo(70 + (25 * 144) / 144.2, 9);
  });

  it('has the sooner an end the higher it stands', () => {
    const ways = [40, 70, 100, 140].map((rpm) => {
      const step = makeStepCase({ levelRpm: rpm });
      return wayLeft(settleCases([step], pointsAt(rpm), makeOutlookRules())[0]!, 150);
    });
    expect(ways).toEqual([...ways].sort((a, b) => b - a));
  });

  it('is past the limit where it stands there', () => {
    const past = settleCases([makeStepCase({ levelRpm: 160 })], pointsAt(160), makeOutlookRules())[0]!;
    expect(wayLeft(past, 150)).toBe(0);
  });
});

it('keeps the weights', () => {
  const cases = [makeWearCase({ weight: 0.25 }), makeStepCase({ weight: 0.75 })];
  const weights = settleCases(cases, pointsOff(5), makeOutlookRules()).map((one) => one.weight);
  expect(weights).toEqual([0.25, 0.75]);
  const split = settleCases(cases, pointsOff(5), makeOutlookRules({ levelShare: 0.2 }));
  expect(split).toHaveLength(6);
  expect(split.reduce((sum, one) => sum + one.weight, 0)).toBeCloseTo(1, 12);
});
