import { beforeAll, describe, expect, it } from 'vitest';
import { type LoadedSolver, loadSolver } from '#server/planning-thread/load-solver.ts';
import { makeDepotQuestion } from '#tests/helpers/make-depot-question.ts';
import { expectToFit, sumValue } from '#tests/helpers/seating-rules.ts';
import { buildPlanModel } from './build-plan-model.ts';
import { diveForPlan } from './dive-for-plan.ts';
import { fixPackings } from './fix-packings.ts';
import { listPackingGroups } from './list-packing-groups.ts';
import { readSeatings } from './read-seatings.ts';
import { seatGreedily } from './seat-greedily.ts';
import { writeSeatings } from './write-seatings.ts';

let loaded: LoadedSolver;
beforeAll(async () => {
  loaded = await loadSolver();
});

const makeQuestion = (seed: number) =>
  makeDepotQuestion(seed, {
    candidates: 50,
    days: 8,
    bays: 2,
    openQuarters: 36,
    lengths: [8, 12, 16],
    holdShare: 0.2,
    bookedShare: 0.3,
    awayShare: 0.3,
  });

/** What diving finds, and the best with the packings of a greedy plan, beside the relaxation and that plan. */
function explore(seed: number) {
  const question = makeQuestion(seed);
  const model = buildPlanModel(question, { kind: 'value', extra: false, leastHolds: 2 });
  const greedy = seatGreedily(question, []);
  const found = loaded.until(Infinity).explore(model.linear, (session) => {
    const relaxed = session.relax();
    if (relaxed === null) return null;
    return {
      relaxed,
      dived: diveForPlan(model, relaxed, session),
      dealt: fixPackings(model, writeSeatings(question, model, greedy) ?? [], session),
    };
  });
  if (found == null) throw new Error('nothing was relaxed');
  const read = (values: ArrayLike<number> | undefined) => readSeatings(question, model, values ?? []);
  return {
    question,
    model,
    greedy,
    relaxed: found.relaxed,
    dived: read(found.dived?.values),
    dealt: read(found.dealt?.values),
  };
}

describe.each([1, 2, 3])('with seed %i', (seed) => {
  it('dives to a plan that fits and misses little of what the relaxation promises', () => {
    const { question, relaxed, dived } = explore(seed);
    expectToFit(question, dived);
    expect(sumValue(question, dived)).toBeLessThanOrEqual(relaxed.bound + 1e-6);
    expect(sumValue(question, dived)).toBeGreaterThan(0.97 * relaxed.bound);
  });

  it('deals vehicles to given packings no worse than they were', () => {
    const { question, greedy, dealt } = explore(seed);
    expectToFit(question, dealt);
    expect(sumValue(question, dealt)).toBeGreaterThanOrEqual(sumValue(question, greedy) - 1e-6);
  });

  it('knows the packings of each group of gaps once', () => {
    const { model } = explore(seed);
    const groups = listPackingGroups(model, null);
    const columns = groups.flatMap((group) => group.columns);
    expect(columns.toSorted((a, b) => a - b)).toEqual(
      model.columns.flatMap(({ kind }, j) => (kind === 'packing' ? [j] : [])),
    );
    expect(groups.map(({ gaps }) => gaps)).toEqual(model.groups.flat().map(({ gaps }) => gaps.length));
  });
});

it('finds nothing where the relaxation does not', () => {
  const question = makeQuestion(4);
  const model = buildPlanModel(question, { kind: 'value', extra: false, leastHolds: 0 });
  const relaxed = { bound: 1, values: model.columns.map(() => 0.5), marginals: model.columns.map(() => 0) };
  expect(diveForPlan(model, relaxed, { relax: () => null, bound: () => {} })).toBeNull();
  expect(fixPackings(model, [], { relax: () => null, bound: () => {} })).toBeNull();
});
