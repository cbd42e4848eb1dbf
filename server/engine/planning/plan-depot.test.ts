import { beforeAll, describe, expect, it } from 'vitest';
import { type LoadedSolver, loadSolver } from '#server/planning-thread/load-solver.ts';
import { makeDepotQuestion, type QuestionSize } from '#tests/helpers/make-depot-question.ts';
import { planByTrying } from '#tests/helpers/plan-by-trying.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { planDepot } from './plan-depot.ts';
import type { DepotQuestion, LinearSolver, Seating } from './planning-model.ts';
import { valueExtraBay } from './value-extra-bay.ts';

let loaded: LoadedSolver;
beforeAll(async () => {
  loaded = await loadSolver();
});
const solver = () => loaded.until(Infinity);
/** What is left where a solver has no time. */
const noSolver: LinearSolver = {
  relax: () => null,
  solve: () => ({ values: null, bound: null, proved: false }),
};

/** Nobody twice, nobody on a day when they cannot be taken, no gap with more than fits into it. */
function expectToFit({ days, candidates }: DepotQuestion, seatings: readonly Seating[]) {
  const seated = seatings.flatMap((one) => one.candidates);
  expect(new Set(seated).size).toBe(seated.length);
  expect(new Set(seatings.map(({ day, gap }) => `${day} ${gap}`)).size).toBe(seatings.length);
  for (const { day, gap, candidates: inside } of seatings) {
    const room = days[day]?.gaps[gap];
    const taken = inside.reduce((sum, i) => sum + (candidates[i]?.quarters ?? 0), 0);
    expect(taken).toBeLessThanOrEqual((room?.toQuarter ?? 0) - (room?.fromQuarter ?? 0));
    for (const i of inside) expect(candidates[i]?.values[day]).toEqual(expect.any(Number));
  }
}

function sizeOf(seed: number): QuestionSize {
  const { uniform } = seededRandom(1_000_000 + seed);
  const between = (low: number, high: number) => low + Math.floor(uniform() * (high - low + 1));
  return {
    candidates: between(1, 6),
    days: between(1, 3),
    bays: between(1, 2),
    openQuarters: between(8, 36),
    lengths: [[8], [8, 12], [6, 10, 16], [5, 7, 9, 13]][between(0, 3)] ?? [8],
    holdShare: uniform() < 0.3 ? 0 : uniform(),
    bookedShare: uniform(),
    awayShare: uniform(),
  };
}

it('runs as its note says', () => {
  expect(planDepot({ days: [], candidates: [] }, noSolver, false).optimal).toBe(true);
});

const seeds = Array.from({ length: 400 }, (_, i) => i + 1);

describe('against trying every plan', () => {
  it('finds as many on hold and as high a value, proves it, and fits', { timeout: 120_000 }, () => {
    let wentShort = 0;
    for (const seed of seeds) {
      const question = makeDepotQuestion(seed, sizeOf(seed));
      const plan = planDepot(question, solver(), false);
      const tried = planByTrying(question);
      expect({ seed, holds: plan.holds, optimal: plan.optimal }).toEqual({
        seed,
        holds: tried.holds,
        optimal: true,
      });
      expect(plan.value, `seed ${seed}`).toBeCloseTo(tried.value, 5);
      expect(plan.mostValue ?? 0, `seed ${seed}`).toBeCloseTo(tried.value, 4);
      expectToFit(question, plan.seatings);
      if (question.candidates.filter(({ hold }) => hold).length > tried.holds) wentShort += 1;
    }
    // The cases must be those in which not every vehicle on hold fits, often enough.
    expect(wentShort).toBeGreaterThan(100);
  });

  it('knows what one more bay on one day is worth, and to how many on hold', { timeout: 120_000 }, () => {
    let worthSomething = 0;
    for (const seed of seeds.filter((one) => one % 2 === 0)) {
      const question = makeDepotQuestion(seed, sizeOf(seed));
      const plan = planDepot(question, solver(), false);
      const extra = valueExtraBay(question, solver(), plan);
      const without = planByTrying(question);
      const tried = question.days
        .map((_, day) => planByTrying(question, day))
        .reduce((a, b) => (b.holds > a.holds || (b.holds === a.holds && b.value > a.value) ? b : a), without);
      expect({ seed, holds: extra?.holds }).toEqual({ seed, holds: tried.holds - without.holds });
      expect(extra?.worth, `seed ${seed}`).toBeCloseTo(tried.value - without.value, 4);
      if (extra?.day != null) {
        worthSomething += 1;
        expect(planByTrying(question, extra.day).value).toBeCloseTo(tried.value, 5);
      }
    }
    expect(worthSomething).toBeGreaterThan(50);
  });
});

describe('without a solver', () => {
  it('still gives a plan that fits, and does not say that it is the best', () => {
    let proved = 0;
    for (const seed of seeds) {
      const question = makeDepotQuestion(seed, sizeOf(seed));
      const plan = planDepot(question, noSolver, false);
      const tried = planByTrying(question);
      expectToFit(question, plan.seatings);
      expect(plan.holds).toBeLessThanOrEqual(tried.holds);
      if (plan.holds === tried.holds) expect(plan.value).toBeLessThanOrEqual(tried.value + 1e-9);
      if (plan.optimal) proved += 1;
      else expect(valueExtraBay(question, noSolver, plan)).toBeNull();
    }
    expect(proved).toBeLessThan(seeds.length / 2);
  });
});
