import type { Database } from '#db/client.ts';
import { readBandStretches } from '#db/queries/read-replay-stretches.ts';
import { learnPlatform } from '#server/engine/platform/learn-platform.ts';
import type { PlatformContext } from '#server/engine/platform/platform-context.ts';
import { MOST_LEARNED, takeEvenly } from '#server/engine/platform/take-evenly.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { groupByVehicle } from './group-by-vehicle.ts';
import type { PlatformGroup } from './replay-plan.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';
import type { InBatch } from './start-batch.ts';
import { tellCourses } from './tell-courses.ts';

/** Days of a vehicle that have been gone through; what they were built from is let go. */
export type GoneThrough = Pick<InBatch, 'vehicle' | 'facts' | 'days' | 'readings' | 'late' | 'loaded'>;

/** What the platform's vehicles have in common at the reference point, from all that is stored by now. */
export async function learnWithHindsight(
  db: Database,
  { platform, members }: PlatformGroup,
): Promise<PlatformContext> {
  const rows = await readBandStretches(db, takeEvenly(members, MOST_LEARNED), REFERENCE_BAND);
  return learnPlatform([...groupByVehicle(rows).values()], toEngineSettings(platform));
}

/** How the lives went, from all stretches at the reference point that are stored by now. */
export async function finishBatch(
  db: Database,
  { platform }: PlatformGroup,
  batch: readonly GoneThrough[],
  context: PlatformContext,
  dayEndMs: readonly number[],
): Promise<ReplayedVehicle[]> {
  const settings = toEngineSettings(platform);
  const keys = batch.map(({ vehicle }) => vehicle);
  const rows = groupByVehicle(await readBandStretches(db, keys, REFERENCE_BAND));
  return batch.map(({ vehicle, facts, days, readings, late, loaded }) => ({
    vehicle,
    unit: facts.unit,
    platform: facts.platform,
    depot: facts.depot,
    days,
    readings,
    late,
    loaded,
    ...tellCourses(facts, rows.get(vehicle) ?? [], settings, context, dayEndMs, days.km),
  }));
}
