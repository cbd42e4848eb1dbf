import type { AvoidableCosts } from '#server/engine/ranking/expect-avoided-cost.ts';

export interface InspectionValue {
  /** expected cost on the road if nobody looks */
  risk: number;
  /** of it, what falls before the inspection */
  riskBefore: number;
  /** expected cost avoided, less the inspection */
  value: number;
}

/**
 * What inspecting a vehicle on a day is worth.
 *
 * stake = road failure - planned repair; risk = chance by the end * stake; before = chance before the day * stake;
 * value = risk - before - inspection with the day lost to it.
 *
 * @param chanceBefore of failing on the road before the day, 0 to 1
 * @param chanceByEnd  of failing on the road by the end of what is counted, 0 to 1
 * @param costs        of the platform
 * @returns risk, the part of it before the day, and the value; negative where inspecting costs more than it avoids
 * Source: expected value, own rule. Edges: a road failure that costs less than a planned repair makes risks negative.
 * Errors: none.
 * @example valueInspection(0.1, 0.5, { roadFailureCost: 8000, plannedRepairCost: 3000, inspectionCost: 200 }).value // 1800
 */
export function valueInspection(
  chanceBefore: number,
  chanceByEnd: number,
  { roadFailureCost, plannedRepairCost, inspectionCost }: AvoidableCosts,
): InspectionValue {
  const stake = roadFailureCost - plannedRepairCost;
  const [risk, riskBefore] = [chanceByEnd * stake, chanceBefore * stake];
  return { risk, riskBefore, value: risk - riskBefore - inspectionCost };
}
