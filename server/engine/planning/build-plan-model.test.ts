import { describe, expect, it } from 'vitest';
import { makeDepotQuestion } from '#tests/helpers/make-depot-question.ts';
import { expectToFit } from '#tests/helpers/seating-rules.ts';
import { buildPlanModel } from './build-plan-model.ts';
import type { DepotQuestion, LinearModel } from './planning-model.ts';
import { readSeatings } from './read-seatings.ts';
import { seatGreedily } from './seat-greedily.ts';
import { writeSeatings } from './write-seatings.ts';

const question: DepotQuestion = {
  days: [
    {
      gaps: [
        { bay: 1, fromQuarter: 0, toQuarter: 20 },
        { bay: 2, fromQuarter: 0, toQuarter: 21 },
      ],
      extra: { fromQuarter: 0, toQuarter: 36 },
    },
  ],
  candidates: [
    { hold: true, quarters: 8, values: [-100] },
    { hold: false, quarters: 12, values: [500] },
    { hold: false, quarters: 12, values: [-1] },
  ],
};

/** Rows of a solution that lie outside their ends. */
function countBroken(model: LinearModel, values: readonly number[]): number {
  const sums = model.rowLower.map(() => 0);
  for (const [j, value] of values.entries())
    for (let at = model.starts[j] ?? 0; at < (model.starts[j + 1] ?? 0); at += 1) {
      const row = model.rows[at] ?? 0;
      sums[row] = (sums[row] ?? 0) + value * (model.coefficients[at] ?? 0);
    }
  return sums.filter(
    (sum, row) => sum > (model.rowUpper[row] ?? 0) + 1e-9 || sum < (model.rowLower[row] ?? 0) - 1e-9,
  ).length;
}

describe('the model of a depot', () => {
  it('runs as its note says', () => {
    expect(buildPlanModel({ days: [], candidates: [] }, { kind: 'holds', extra: false }).columns).toEqual([]);
  });

  it('has a seat for each vehicle and day that are worth it, and the packings of gaps that are alike once', () => {
    const { columns, groups, lengths } = buildPlanModel(question, {
      kind: 'value',
      extra: false,
      leastHolds: 1,
    });
    expect(lengths).toEqual([12, 8]);
    expect(groups).toEqual([[{ room: 20, gaps: [0, 1] }]]);
    expect(columns).toEqual([
      { kind: 'short' },
      { kind: 'seat', candidate: 0, day: 0 },
      { kind: 'seat', candidate: 1, day: 0 },
      { kind: 'packing', day: 0, group: 0, packing: [1, 1] },
    ]);
  });

  it('has the vehicles on hold alone where these are counted, and the extra bay where that is asked for', () => {
    const { columns, groups } = buildPlanModel(question, { kind: 'holds', extra: true });
    expect(columns.filter(({ kind }) => kind === 'seat')).toEqual([{ kind: 'seat', candidate: 0, day: 0 }]);
    expect(columns.filter(({ kind }) => kind === 'extra')).toEqual([{ kind: 'extra', day: 0 }]);
    expect(groups[0]?.flatMap(({ gaps }) => gaps)).toContain(2);
  });
});

describe('seatings as a solution of the model', () => {
  it('run as their notes say', () => {
    const empty = { days: [], candidates: [] };
    const model = buildPlanModel(empty, { kind: 'holds', extra: false });
    expect([readSeatings(empty, model, []), writeSeatings(empty, model, [])]).toEqual([[], []]);
  });

  it('keep every rule of it, and come back with everybody on their day', () => {
    for (const seed of [1, 2, 3, 4]) {
      const some = makeDepotQuestion(seed, {
        candidates: 30,
        days: 4,
        bays: 2,
        openQuarters: 36,
        lengths: [6, 8, 13],
        holdShare: 0.3,
        bookedShare: 0.4,
        awayShare: 0.3,
      });
      const model = buildPlanModel(some, { kind: 'value', extra: false, leastHolds: 0 });
      const begun = seatGreedily(some, []);
      const values = writeSeatings(some, model, begun) ?? [];
      expect(values.length).toBe(model.columns.length);
      expect(countBroken(model.linear, values)).toBe(0);
      const back = readSeatings(some, model, values);
      expectToFit(some, back);
      const daysOf = (seatings: typeof begun) =>
        seatings.flatMap(({ day, candidates }) => candidates.map((i) => `${i} ${day}`)).sort();
      expect(daysOf(back)).toEqual(daysOf(begun));
    }
  });

  it('use the extra bay where somebody has it', () => {
    const model = buildPlanModel(question, { kind: 'value', extra: true, leastHolds: 0 });
    const values = writeSeatings(question, model, [{ day: 0, gap: 2, candidates: [1, 0] }]) ?? [];
    expect(countBroken(model.linear, values)).toBe(0);
    expect(model.columns.filter((_, j) => values[j] === 1).map(({ kind }) => kind)).toContain('extra');
    expect(readSeatings(question, model, values)).toEqual([{ day: 0, gap: 2, candidates: [1, 0] }]);
  });

  it('are none where a gap holds more than any packing', () => {
    const model = buildPlanModel(question, { kind: 'value', extra: false, leastHolds: 0 });
    expect(writeSeatings({ ...question }, model, [{ day: 0, gap: 7, candidates: [1] }])).toBeNull();
  });
});
