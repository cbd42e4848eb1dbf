import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { arrangeRiskSets, evaluatePartialLikelihood, scoreLives } from './partial-likelihood.ts';

const one = [{ entry: 0, exit: 5, event: true, count: 1 }];

it('run as their notes say', () => {
  expect(arrangeRiskSets(one, new Float64Array([1])).covariates).toBe(1);
  expect([...scoreLives(arrangeRiskSets(one, new Float64Array([1])), [2])]).toEqual([2]);
  expect(evaluatePartialLikelihood(arrangeRiskSets([], new Float64Array()), []).value).toBe(0);
});

// Against the definition, a sum over all lives at each failure; gradient and information against differences.
it('sums as its definition with late entry and no ties', () => {
  const random = seededRandom(8);
  const lives = Array.from({ length: 60 }, () => {
    const entry = 40 * random.uniform();
    return { entry, exit: entry + 50 * random.uniform() + 1, event: random.uniform() < 0.7, count: 1 };
  });
  const values = Float64Array.from({ length: 120 }, () => random.normal());
  const sets = arrangeRiskSets(lives, values);
  const beta = [0.4, -0.7];
  const score = (i: number) => 0.4 * (values[2 * i] ?? 0) - 0.7 * (values[2 * i + 1] ?? 0);
  let value = 0;
  for (const [i, { event, exit }] of lives.entries()) {
    if (!event) continue;
    const risks = lives.map((life, k) => (life.entry < exit && exit <= life.exit ? Math.exp(score(k)) : 0));
    value += score(i) - Math.log(risks.reduce((a, b) => a + b, 0));
  }
  const here = evaluatePartialLikelihood(sets, beta);
  expect(here.value).toBeCloseTo(value, 11);
  const near = (k: number, step: number) =>
    evaluatePartialLikelihood(
      sets,
      beta.map((b, m) => (m === k ? b + step : b)),
    );
  for (const k of [0, 1]) {
    const slope = (near(k, 1e-5).value - near(k, -1e-5).value) / 2e-5;
    expect(here.gradient[k]).toBeCloseTo(slope, 6);
    for (const m of [0, 1]) {
      const bend = ((near(k, -1e-5).gradient[m] ?? 0) - (near(k, 1e-5).gradient[m] ?? 0)) / 2e-5;
      expect(here.information.get(k, m)).toBeCloseTo(bend, 6);
    }
  }
});

it('forgets a life of a huge risk once it has left', () => {
  const late = { entry: 5, exit: 9, event: true, count: 1 };
  const lives = [{ ...late, entry: 0, exit: 3 }, { ...late, entry: 0, exit: 4 }, late];
  const { value } = evaluatePartialLikelihood(arrangeRiskSets(lives, new Float64Array([0.5, 0.1, 30])), [1]);
  expect(value).toBeCloseTo(0.5 - Math.log(Math.exp(0.5) + Math.exp(0.1)), 12);
});
