import type { Database } from '#db/client.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { ReplayResult } from '#server/contract/replay.ts';
import { readThresholds, toGradeLimits } from '#server/services/settings/read-thresholds.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { prepareLifeFits } from './fit-past-life.ts';
import { gradeDays } from './grade-days.ts';
import { judgeReplay } from './judge-replay.ts';
import { replayGroup } from './replay-group.ts';
import type { ReplayPlan } from './replay-plan.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';

/** Runs the vehicles of a plan, or of a part of one, day by day. */
export async function replayVehicles(
  db: Database,
  plan: ReplayPlan,
  done: (vehicleDays: number) => void,
): Promise<ReplayedVehicle[]> {
  const lifeAt = await prepareLifeFits(db);
  const replayed: ReplayedVehicle[] = [];
  for (const group of plan.groups) replayed.push(...(await replayGroup(db, plan, group, { done, lifeAt })));
  return replayed;
}

/** Ranks the days of all vehicles and tells what the list would have been worth. */
export async function concludeReplay(
  db: Database,
  plan: ReplayPlan,
  replayed: readonly ReplayedVehicle[],
): Promise<ReplayResult> {
  const vehicles = replayed.toSorted((a, b) => a.vehicle - b.vehicle);
  const [rows, present] = await Promise.all([db.select().from(platforms), readThresholds(db)]);
  const settingsOf = new Map(
    vehicles.map(({ platform }) => [
      platform,
      toEngineSettings(rows.find(({ id }) => id === platform) ?? null),
    ]),
  );
  const costsOf = (platform: string | null) => settingsOf.get(platform) ?? toEngineSettings(null);
  const limits = toGradeLimits(plan.request.thresholds ?? present);
  const grades = gradeDays(vehicles, plan.dayEndMs.length, costsOf, limits);
  return judgeReplay(plan, vehicles, grades, (platform) => {
    const { roadFailureCost, plannedRepairCost, inspectionCost } = costsOf(platform);
    return { avoided: roadFailureCost - plannedRepairCost, inspection: inspectionCost };
  });
}
