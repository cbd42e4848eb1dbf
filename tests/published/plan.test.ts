import { beforeAll, expect, it } from 'vitest';
import { planDepot } from '#server/engine/planning/plan-depot.ts';
import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import { type LoadedSolver, loadSolver } from '#server/planning-thread/load-solver.ts';

let loaded: LoadedSolver;
beforeAll(async () => {
  loaded = await loadSolver();
});

const day = (at: number, bays: number, quarters: number): DepotQuestion['days'][number] => ({
  gaps: Array.from({ length: bays }, (_, i) => ({
    bay: i + 1,
    fromQuarter: 1000 * at,
    toQuarter: 1000 * at + quarters,
  })),
  extra: { fromQuarter: 1000 * at, toQuarter: 1000 * at },
});

/**
 * F. S. Hillier, G. J. Lieberman, Introduction to Operations Research, 9th edition, section 8.1, the prototype example of
 * the transportation problem: truckloads from three canneries to four warehouses. Costs, output and allocation (a) read in
 * public copies; the least cost of 152,535 (c) from memory, and in the test as the sum of the printed solution.
 */
it('ships at the least cost that a textbook prints, truckloads as vehicles and canneries as days', () => {
  const output = [75, 125, 100];
  const allocation = [80, 65, 70, 85];
  const cost = [
    [464, 513, 654, 867],
    [352, 416, 690, 791],
    [995, 682, 388, 685],
  ];
  const printed = [
    [0, 20, 0, 55],
    [80, 45, 0, 0],
    [0, 0, 70, 30],
  ];
  const least = printed
    .flatMap((row, i) => row.map((n, j) => n * (cost[i]?.[j] ?? 0)))
    .reduce((a, b) => a + b);
  expect(least).toBe(152_535);
  // Each load is worth so much that all are shipped; one bay of one quarter for each load that a cannery puts out.
  const worth = 10_000;
  const question: DepotQuestion = {
    days: output.map((loads, i) => day(i, loads, 1)),
    candidates: allocation.flatMap((loads, warehouse) =>
      Array.from({ length: loads }, () => ({
        hold: false,
        quarters: 1,
        values: cost.map((row) => worth - (row[warehouse] ?? 0)),
      })),
    ),
  };
  const plan = planDepot(question, loaded.until(Infinity), false);
  expect(plan.optimal).toBe(true);
  expect(300 * worth - plan.value).toBeCloseTo(152_535, 6);
});

/**
 * J. Burkardt, data directory KNAPSACK_01, set P01:
 * capacity, weights, profits and the best choice of 309 (a) read in public copies.
 */
it('fills one gap as the best choice of a known sack', () => {
  const weights = [23, 31, 29, 44, 53, 38, 63, 85, 89, 82];
  const profits = [92, 57, 49, 68, 60, 43, 67, 84, 87, 72];
  const question: DepotQuestion = {
    days: [day(0, 1, 165)],
    candidates: weights.map((quarters, i) => ({ hold: false, quarters, values: [profits[i] ?? 0] })),
  };
  const plan = planDepot(question, loaded.until(Infinity), false);
  expect(plan).toMatchObject({ optimal: true, value: 309 });
  expect(plan.seatings.flatMap(({ candidates }) => candidates).toSorted((a, b) => a - b)).toEqual([
    0, 1, 2, 3, 5,
  ]);
});
