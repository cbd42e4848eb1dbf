import { describe, expect, it } from 'vitest';
import type { RankFacts } from '#server/engine/assessment/assessment-model.ts';
import { gradeLimits } from '#server/engine/assessment/grade-vehicle.ts';
import { type RankedInput, rankVehicles } from './rank-vehicles.ts';

const costs = { roadFailureCost: 8_000, plannedRepairCost: 3_000, inspectionCost: 200 };

function makeInput(vehicle: number, facts: Partial<RankFacts>, own = costs): RankedInput {
  const assessment: RankFacts = {
    p: 0.5,
    drifting: 0,
    stepping: 0,
    chancePastLimit: 0,
    chanceSoon: 0,
    chanceWithinHorizon: 0.01,
    suddenChance: 0.01,
    levelRpm: 20,
    baselineRpm: 18,
    missing: [],
    codes: 0,
    ...facts,
  };
  return { vehicle, assessment, costs: own, isCalm: false };
}
const order = (...inputs: RankedInput[]) => rankVehicles(inputs).map(({ vehicle }) => vehicle);

it('runs as its note says', () => {
  expect(rankVehicles([])).toEqual([]);
});

it('puts what avoids most first, in money', () => {
  const [first] = rankVehicles([makeInput(1, { chanceWithinHorizon: 0.5 }), makeInput(2, {})]);
  expect(first).toMatchObject({ vehicle: 1, rank: 1, chance: 0.5, costAvoided: 0.5 * 5_000 - 200 });
  const dear = { ...costs, roadFailureCost: 28_000 };
  expect(
    order(makeInput(1, { chanceWithinHorizon: 0.5 }), makeInput(2, { chanceWithinHorizon: 0.2 }, dear)),
  ).toEqual([2, 1]);
});

it('puts a vehicle that a shop has just looked at below, graded watch at most, with its chance untouched', () => {
  const alarming = { p: 1e-9, chancePastLimit: 0.9, chanceWithinHorizon: 0.9 };
  const [first, second] = rankVehicles([{ ...makeInput(1, alarming), isCalm: true }, makeInput(2, {})]);
  expect(first).toMatchObject({ vehicle: 2 });
  expect(second).toMatchObject({ vehicle: 1, grade: 'watch', chance: 0.9, costAvoided: -200 });
  expect(rankVehicles([makeInput(1, alarming)])[0]?.grade).toBe('hold');
});

it('orders equals by how far slip lies above healthy, then by number', () => {
  expect(order(makeInput(3, {}), makeInput(2, {}), makeInput(7, { levelRpm: 30 }))).toEqual([7, 2, 3]);
});

it('gives each vehicle one rank from 1 and keeps them all', () => {
  const ranked = rankVehicles(
    Array.from({ length: 9 }, (_, i) => makeInput(i, { chanceWithinHorizon: i / 10 })),
  );
  expect(ranked.map(({ rank }) => rank)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
  expect(ranked.map(({ vehicle }) => vehicle)).toEqual([8, 7, 6, 5, 4, 3, 2, 1, 0]);
});

it('counts a code as a chance of 0.1 where slip says less', () => {
  const ranked = rankVehicles([
    makeInput(1, { codes: 2 }),
    makeInput(2, { codes: 1, chanceWithinHorizon: 0.6 }),
    makeInput(3, { chanceWithinHorizon: 0.05 }),
  ]);
  expect(ranked.map(({ vehicle, chance }) => [vehicle, chance])).toEqual([
    [2, 0.6],
    [1, 0.1],
    [3, 0.05],
  ]);
});

describe('evidence over the fleet', () => {
  const strong: Partial<RankFacts> = { p: 0.02, drifting: 0.9, chanceSoon: 0.8, chanceWithinHorizon: 0.9 };

  it('grades a vehicle alone by its own p', () => {
    expect(rankVehicles([makeInput(1, strong)])).toMatchObject([{ q: 0.02, grade: 'hold' }]);
  });

  it('asks more of the same p among many', () => {
    const many = Array.from({ length: 20 }, (_, i) => makeInput(i + 2, {}));
    const ranked = rankVehicles([makeInput(1, strong), ...many]);
    expect(ranked[0]).toMatchObject({ vehicle: 1, q: expect.closeTo(0.42, 9), grade: 'steady' });
  });

  it('has no q for a vehicle without p, and does not count it among the tested', () => {
    const unknown = Array.from({ length: 20 }, (_, i) =>
      makeInput(i + 2, { p: null, missing: [{ kind: 'no_usable' }] }),
    );
    const ranked = rankVehicles([makeInput(1, strong), ...unknown]);
    expect(ranked[0]).toMatchObject({ q: 0.02, grade: 'hold' });
    expect(ranked[1]).toMatchObject({ q: null, grade: 'unknown' });
  });
});

it('grades by the limits it is given, and leaves the order as it is', () => {
  const inputs = [
    makeInput(1, { p: 0.001, drifting: 0.9, chanceSoon: 0.2, chanceWithinHorizon: 0.4 }),
    makeInput(2, { p: 0.001, drifting: 0.9, chanceSoon: 0.03, chanceWithinHorizon: 0.05 }),
  ];
  const grades = (limits: Partial<typeof gradeLimits>) =>
    rankVehicles(inputs, { ...gradeLimits, ...limits }).map(({ vehicle, grade }) => [vehicle, grade]);
  expect(grades({})).toEqual([
    [1, 'book'],
    [2, 'watch'],
  ]);
  expect(grades({ holdChance: 0.2, bookChance: 0.04 })).toEqual([
    [1, 'hold'],
    [2, 'book'],
  ]);
});
