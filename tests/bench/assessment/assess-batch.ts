import { assessVehicle } from '#server/engine/assessment/assess-vehicle.ts';
import type { AssessmentInput } from '#server/engine/assessment/assessment-input.ts';
import type { PlatformContext, PlatformSettings } from '#server/engine/platform/platform-context.ts';

/** Work for one thread: vehicles by platform, as often as asked. */
export interface AssessmentBatch {
  platforms: { settings: PlatformSettings; context: PlatformContext; vehicles: AssessmentInput[] }[];
  /** vehicles in all; the given ones are taken again and again */
  vehicles: number;
}

/** Assesses a batch and answers how many vehicles have a level. */
export function assessBatch({ platforms, vehicles }: AssessmentBatch): number {
  const all = platforms.flatMap((platform) => platform.vehicles.map((vehicle) => ({ platform, vehicle })));
  let levels = 0;
  for (let i = 0; i < vehicles; i++) {
    const one = all[i % all.length];
    if (one === undefined) return levels;
    const found = assessVehicle(one.vehicle, one.platform.settings, one.platform.context, 5_000);
    if (found.levelRpm !== null) levels++;
  }
  return levels;
}
