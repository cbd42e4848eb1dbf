import { beforeAll, describe, expect, it } from 'vitest';
import { type LoadedSolver, loadSolver } from '#server/planning-thread/load-solver.ts';
import { makeDepotQuestion, type QuestionSize } from '#tests/helpers/make-depot-question.ts';
import { planByTrying } from '#tests/helpers/plan-by-trying.ts';
import { countHolds, expectToFit, sumValue } from '#tests/helpers/seating-rules.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { planDepot } from './plan-depot.ts';
import type { LinearSolver } from './planning-model.ts';
import { valueExtraBay } from './value-extra-bay.ts';

let loaded: LoadedSolver;
beforeAll(async () => {
  loaded = await loadSolver();
});
const solver = () => loaded.until(Infinity);
/** What is left where a solver has no time. */
const noSolver: LinearSolver = {
  explore: () => null,
  solve: () => ({ values: null, bound: null, proved: false }),
};

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

describe('larger depots', () => {
  const larger: QuestionSize = {
    candidates: 60,
    days: 10,
    bays: 2,
    openQuarters: 36,
    lengths: [8, 12, 16],
    holdShare: 0.2,
    bookedShare: 0.3,
    awayShare: 0.3,
  };

  it.each([
    ['loose', larger],
    ['tight, half of them on hold', { ...larger, bays: 1, holdShare: 0.5 }],
    ['one length', { ...larger, lengths: [12] }],
    ['seven lengths', { ...larger, candidates: 30, days: 5, lengths: [5, 7, 9, 10, 13, 17, 22] }],
  ])('are proved, and beat what is found without a solver: %s', { timeout: 120_000 }, (_name, size) => {
    for (const seed of [1, 2, 3]) {
      const question = makeDepotQuestion(seed, size);
      const plan = planDepot(question, solver(), false);
      expectToFit(question, plan.seatings);
      expect(plan).toMatchObject({ optimal: true, holds: plan.mostHolds });
      expect(plan.holds).toBe(countHolds(question, plan.seatings));
      expect(plan.value).toBeCloseTo(sumValue(question, plan.seatings), 6);
      const plain = planDepot(question, noSolver, false);
      expect(plan.holds).toBeGreaterThanOrEqual(plain.holds);
      if (plan.holds === plain.holds) expect(plan.value).toBeGreaterThanOrEqual(plain.value);
    }
  });

  it('does not change with the order of the vehicles but among equals', { timeout: 120_000 }, () => {
    const question = makeDepotQuestion(9, larger);
    const turned = { ...question, candidates: question.candidates.toReversed() };
    const [plan, other] = [question, turned].map((one) => planDepot(one, solver(), false));
    expect(other?.value).toBeCloseTo(plan?.value ?? Number.NaN, 5);
  });
});

it('keeps what it had where time ends before anything is proved, and bounds what is missing', {
  timeout: 60_000,
}, () => {
  let missed = 0;
  for (const seed of [1, 2, 3, 4]) {
    const question = makeDepotQuestion(seed, {
      candidates: 30,
      days: 5,
      bays: 1,
      openQuarters: 36,
      lengths: [5, 7, 9, 13, 17],
      holdShare: 0.1,
      bookedShare: 0.3,
      awayShare: 0.3,
    });
    const whole = solver();
    const hasty: LinearSolver = {
      explore: (model, work) => whole.explore(model, work),
      solve: () => ({ values: null, bound: null, proved: false }),
    };
    const [plan, best] = [planDepot(question, hasty, false), planDepot(question, whole, false)];
    expectToFit(question, plan.seatings);
    expect(plan.holds).toBe(best.holds);
    expect(plan.value).toBeLessThanOrEqual(best.value + 1e-6);
    expect(plan.value).toBeGreaterThan(0.9 * best.value);
    expect(plan.mostValue).toBeGreaterThanOrEqual(best.value - 1e-6);
    if (plan.value < best.value - 1e-6) {
      missed += 1;
      expect(plan.optimal).toBe(false);
    }
  }
  expect(missed).toBeGreaterThan(1);
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
