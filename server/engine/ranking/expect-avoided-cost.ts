import type { PlatformSettings } from '#server/engine/platform/platform-context.ts';

/** Chance of failing within the horizon that a trouble code stands for where slip says nothing. Own assumption. */
export const CODE_CHANCE = 0.1;

/** Costs of a platform, any one currency. */
export type AvoidableCosts = Pick<
  PlatformSettings,
  'roadFailureCost' | 'plannedRepairCost' | 'inspectionCost'
>;

/**
 * Expected cost that inspecting one vehicle avoids within the horizon.
 *
 * chance' = max(chance, 0.1 where a code names the clutch);
 * cost avoided = chance' * (road failure - planned repair) - inspection.
 *
 * @param chance of reaching the limit or failing without notice within the horizon, from 0 to 1
 * @param codes  number of trouble codes that name the clutch
 * @param costs  of the platform
 * @param isCalm a shop has inspected it and nothing new speaks since: inspecting it again so soon avoids nothing
 * @returns the chance that was counted with, and the cost avoided; negative where inspecting costs more than it saves
 * Source: expected value, own rule. Edges: as said. Errors: none.
 * @example expectAvoidedCost(0.5, 0, costs).costAvoided // half of what is at stake, less the inspection
 */
export function expectAvoidedCost(
  chance: number,
  codes: number,
  costs: AvoidableCosts,
  isCalm = false,
): { chance: number; costAvoided: number } {
  const counted = Math.max(chance, codes > 0 ? CODE_CHANCE : 0);
  return {
    chance: counted,
    costAvoided:
      (isCalm ? 0 : counted * (costs.roadFailureCost - costs.plannedRepairCost)) - costs.inspectionCost,
  };
}
