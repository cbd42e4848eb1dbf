import { expect, it } from 'vitest';
import { valueInspection } from './value-inspection.ts';

const costs = { roadFailureCost: 8000, plannedRepairCost: 3000, inspectionCost: 200 };

it('runs as its note says', () => {
  expect(valueInspection(0.1, 0.5, costs).value).toBe(1800);
});

it('tells the risk, and what of it no inspection on that day can avoid', () => {
  expect(valueInspection(0.25, 0.5, costs)).toEqual({ risk: 2500, riskBefore: 1250, value: 1050 });
});

it('is negative where inspecting costs more than it avoids', () => {
  expect(valueInspection(0.5, 0.5, costs).value).toBe(-200);
});
