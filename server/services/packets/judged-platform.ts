import type { platforms } from '#db/schema/fleet.ts';
import { healthyByDuty } from '#server/engine/diagnosis/healthy-by-duty.ts';
import { NO_PLATFORM, readContext } from '#server/services/assessment/learn-platform.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import type { TracePlatform } from './judge-trace.ts';

/** What test steps are judged by: settings of the platform, and what was learned of its healthy vehicles. */
export async function readJudgedPlatform(
  ctx: Context,
  platform: typeof platforms.$inferSelect | null,
): Promise<TracePlatform> {
  const settings = toEngineSettings(platform);
  const { bands } = await readContext(ctx, platform?.id ?? NO_PLATFORM);
  return {
    limitRpm: settings.limitRpm,
    lowestDutyPct: settings.bandEdgesPct[0] ?? 0,
    solenoid: platform?.solenoid ?? null,
    gate: settings.gate,
    referenceDutyPct: settings.reference.dutyPct,
    healthy: healthyByDuty(bands, settings.bandEdgesPct),
  };
}
