import { beforeAll, describe, expect, it } from 'vitest';
import { type LoadedSolver, loadSolver } from '#server/planning-thread/load-solver.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import type { LinearModel, LinearSolver, Relaxed } from './planning-model.ts';
import { solveByPrice } from './solve-by-price.ts';

let loaded: LoadedSolver;
beforeAll(async () => {
  loaded = await loadSolver();
});

/** Items of which some fit into one sack: gains, lengths and the room. */
const toSack = (gains: readonly number[], lengths: readonly number[], room: number): LinearModel => ({
  gains: [...gains],
  lower: gains.map(() => 0),
  upper: gains.map(() => Infinity),
  rowLower: [-Infinity, ...gains.map(() => -Infinity)],
  rowUpper: [room, ...gains.map(() => 1)],
  starts: [0, ...gains.map((_, i) => 2 * i + 2)],
  rows: gains.flatMap((_, i) => [0, i + 1]),
  coefficients: lengths.flatMap((length) => [length, 1]),
});

/** By dynamic programming, which shares nothing with the model. */
function fillSack(gains: readonly number[], lengths: readonly number[], room: number): number {
  const best = Array.from({ length: room + 1 }, () => 0);
  for (const [i, length] of lengths.entries())
    for (let at = room; at >= length; at -= 1)
      best[at] = Math.max(best[at] ?? 0, (best[at - length] ?? 0) + (gains[i] ?? 0));
  return best[room] ?? 0;
}

const relax = (solver: LinearSolver, model: LinearModel): Relaxed => {
  const relaxed = solver.explore(model, (session) => session.relax());
  if (relaxed === null) throw new Error('the sack was not relaxed');
  return relaxed;
};

function makeSack(seed: number, whole: boolean) {
  const { uniform } = seededRandom(seed);
  const lengths = Array.from({ length: 25 }, () => 10 + Math.floor(90 * uniform()));
  const gains = lengths.map((length) => (whole ? 1 : length * (0.9 + 0.2 * uniform())));
  return { gains, lengths, room: 200 + Math.floor(300 * uniform()) };
}

describe('against dynamic programming', () => {
  it.each([
    ['gains of money', false],
    ['gains that are whole numbers', true],
  ])('finds the best and proves it: %s', { timeout: 60_000 }, (_name, whole) => {
    for (let seed = 1; seed <= 12; seed += 1) {
      const { gains, lengths, room } = makeSack(seed, whole);
      const model = toSack(gains, lengths, room);
      const solver = loaded.until(Infinity);
      const found = solveByPrice(model, solver, relax(solver, model), null, { whole, timeShare: 1 });
      const best = fillSack(gains, lengths, room);
      expect(found.gain, `seed ${seed}`).toBeCloseTo(best, 6);
      expect(found.bound, `seed ${seed}`).toBeCloseTo(best, 4);
    }
  });

  it('asks the solver for a small part of the columns', () => {
    const { gains, lengths, room } = makeSack(3, false);
    const model = toSack(gains, lengths, room);
    const solver = loaded.until(Infinity);
    const asked: number[] = [];
    const watched: LinearSolver = {
      ...solver,
      solve: (narrow, start, share) => {
        asked.push(narrow.gains.length);
        return solver.solve(narrow, start, share);
      },
    };
    solveByPrice(model, watched, relax(solver, model), null, { whole: false, timeShare: 1 });
    expect(asked.length).toBeGreaterThan(0);
    expect(Math.max(...asked)).toBeLessThan(25);
  });
});

describe('without time', () => {
  const { gains, lengths, room } = makeSack(5, false);
  const model = toSack(gains, lengths, room);
  const hasty: LinearSolver = {
    explore: () => null,
    solve: () => ({ values: null, bound: null, proved: false }),
  };

  it('runs as its note says: the bound is that of the relaxation', () => {
    const relaxed = relax(loaded.until(Infinity), model);
    const found = solveByPrice(model, hasty, relaxed, null, { whole: false, timeShare: 1 });
    expect([found.values, found.bound]).toEqual([null, relaxed.bound]);
    expect(found.bound).toBeGreaterThanOrEqual(fillSack(gains, lengths, room));
  });

  it('keeps the solution that was known', () => {
    const known = gains.map((_, i) => Number(i < 3));
    const found = solveByPrice(model, hasty, relax(loaded.until(Infinity), model), known, {
      whole: false,
      timeShare: 1,
    });
    expect(found.values).toEqual(known);
    expect(found.gain).toBeLessThan(found.bound);
  });
});
