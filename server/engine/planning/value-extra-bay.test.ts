import { beforeAll, describe, expect, it } from 'vitest';
import { type LoadedSolver, loadSolver } from '#server/planning-thread/load-solver.ts';
import { planDepot } from './plan-depot.ts';
import type { DepotQuestion, LinearSolver } from './planning-model.ts';
import { valueExtraBay } from './value-extra-bay.ts';

let loaded: LoadedSolver;
beforeAll(async () => {
  loaded = await loadSolver();
});

const value = (question: DepotQuestion) => {
  const solver = loaded.until(Infinity);
  return valueExtraBay(question, solver, planDepot(question, solver, false));
};

const day = (at: number, bays: number) => ({
  gaps: Array.from({ length: bays }, (_, i) => ({
    bay: i + 1,
    fromQuarter: 96 * at,
    toQuarter: 96 * at + 12,
  })),
  extra: { fromQuarter: 96 * at, toQuarter: 96 * at + 12 },
});

it('runs as its note says', () => {
  const nobody = { days: [], candidates: [] };
  const unused: LinearSolver = {
    explore: () => null,
    solve: () => ({ values: null, bound: null, proved: false }),
  };
  expect(valueExtraBay(nobody, unused, planDepot(nobody, unused, false))).toEqual({
    day: null,
    worth: 0,
    holds: 0,
  });
});

describe('one more bay', () => {
  it('is worth what the next vehicle avoids on the better day', () => {
    const candidates = [900, 700, 400].map((worth) => ({
      hold: false,
      quarters: 12,
      values: [worth, worth - 100],
    }));
    // Without it 900 today and 600 tomorrow; with it today 900 and 700, and 300 tomorrow.
    expect(value({ days: [day(0, 1), day(1, 1)], candidates })).toEqual({ day: 0, worth: 400, holds: 0 });
  });

  it('is worth nothing where everybody has their best day', () => {
    const candidates = [{ hold: false, quarters: 12, values: [900, 800] }];
    expect(value({ days: [day(0, 1), day(1, 1)], candidates })).toEqual({ day: null, worth: 0, holds: 0 });
  });

  it('gives a vehicle on hold a day though that costs more than it avoids', () => {
    const candidates = [
      { hold: true, quarters: 12, values: [2_000] },
      { hold: true, quarters: 12, values: [-180] },
    ];
    expect(value({ days: [day(0, 1)], candidates })).toEqual({ day: 0, worth: -180, holds: 1 });
  });

  it('is not told where the plan with it was not proved', () => {
    const candidates = [900, 700].map((worth) => ({ hold: false, quarters: 12, values: [worth] }));
    const question = { days: [day(0, 1)], candidates };
    const plan = planDepot(question, loaded.until(Infinity), false);
    expect(valueExtraBay(question, loaded.until(Infinity), plan)?.worth).toBe(700);
    expect(valueExtraBay(question, loaded.until(0), plan)).toBeNull();
  });

  it('is not told where the plan itself was not proved', () => {
    const question = { days: [day(0, 1)], candidates: [{ hold: false, quarters: 12, values: [5] }] };
    const solver = loaded.until(Infinity);
    expect(
      valueExtraBay(question, solver, { ...planDepot(question, solver, false), optimal: false }),
    ).toBeNull();
  });
});
