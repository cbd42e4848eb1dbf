import { expect, it } from 'vitest';
import { expectAvoidedCost } from './expect-avoided-cost.ts';

const costs = { roadFailureCost: 8_000, plannedRepairCost: 3_000, inspectionCost: 200 };

it('runs as its note says', () => {
  expect(expectAvoidedCost(0.5, 0, costs).costAvoided).toBe(2_300);
});

it('counts a code as a chance of 0.1 where slip says less, and no more for more codes', () => {
  expect(expectAvoidedCost(0.01, 1, costs)).toEqual({ chance: 0.1, costAvoided: 300 });
  expect(expectAvoidedCost(0.01, 5, costs)).toEqual(expectAvoidedCost(0.01, 1, costs));
  expect(expectAvoidedCost(0.6, 1, costs).chance).toBe(0.6);
});

it('is negative where inspecting costs more than it saves', () => {
  expect(expectAvoidedCost(0, 0, costs).costAvoided).toBe(-200);
});
