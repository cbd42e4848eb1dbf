import type { PlannableVehicle } from '#db/queries/list-plannable.ts';
import { chanceOnRoad } from '#server/engine/planning/chance-on-road.ts';
import { type InspectionValue, valueInspection } from '#server/engine/planning/value-inspection.ts';
import type { AvoidableCosts } from '#server/engine/ranking/expect-avoided-cost.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import { ASSUMED_KM_PER_DAY } from './plan-limits.ts';

export interface Weighed extends InspectionValue {
  chanceBefore: number;
  chanceByEnd: number;
  inspectionCost: number;
}

/** What one vehicle risks, and what inspecting it on a day is worth: less on each later day, or as much. */
export interface Scales {
  /** 0 where it stands */
  kmPerDay: number;
  on(day: string): Weighed;
}

const DAY_MS = 86_400_000;

/** Days without a time are read as UTC, which has no summer time: every day is as long. */
const countDays = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / DAY_MS;

/**
 * Weighs a vehicle by what is stored of it. Where nobody knows how far it drives in a day, what is usual on its platform
 * is taken, else in the fleet.
 */
export function weighVehicle(
  { kmPerDay, platform, chances, codes }: PlannableVehicle,
  costs: AvoidableCosts,
  usualPaces: ReadonlyMap<string, number>,
  today: string,
  countedTo: string,
): Scales {
  const usual = usualPaces.get(platform ?? '') ?? usualPaces.get('') ?? ASSUMED_KM_PER_DAY;
  const pace = Math.max(0, kmPerDay ?? usual);
  const chanceIn = (days: number) =>
    chanceOnRoad(chances ?? [], codes ?? 0, DEFAULT_HORIZON_KM, pace * Math.max(0, days));
  const chanceByEnd = chanceIn(countDays(today, countedTo) + 1);
  return {
    kmPerDay: pace,
    on(day) {
      const chanceBefore = Math.min(chanceByEnd, chanceIn(countDays(today, day)));
      return {
        chanceBefore,
        chanceByEnd,
        inspectionCost: costs.inspectionCost,
        ...valueInspection(chanceBefore, chanceByEnd, costs),
      };
    },
  };
}
