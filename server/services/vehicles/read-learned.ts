import type { Database } from '#db/client.ts';
import { findPlatformContext } from '#db/queries/find-platform-context.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import {
  CONTEXT_VERSION,
  type PlatformContext,
  unknownPlatform,
} from '#server/engine/platform/platform-context.ts';

interface Learned {
  context: PlatformContext;
  usual: VehicleSeries['exposure']['platform'];
}

interface Kept {
  version: string;
  context: PlatformContext;
}

/** Contexts that were read before: large, and the same until the platform is learned anew, which its row tells. */
const keptOf = new WeakMap<Database, Map<string, Kept>>();

/** What was last learned of a platform: what its vehicles have in common, and what is usual on it. */
export async function readLearned(db: Database, platform: string): Promise<Learned> {
  const kept = keptOf.get(db) ?? new Map<string, Kept>();
  keptOf.set(db, kept);
  const known = kept.get(platform);
  const found = await findPlatformContext(db, platform, known?.version ?? '');
  if (found === null) return { context: unknownPlatform, usual: null };
  const same = known !== undefined && known.version === found.version;
  const context = same ? known.context : usable(found.context as PlatformContext);
  if (!same) kept.set(platform, { version: found.version, context });
  const heat = found.heatMjPer1000km;
  return {
    context,
    usual: {
      clutch_heat_mj_per_1000km: heat === null ? null : Math.round(heat * 10) / 10,
      heat_vehicles: found.heatVehicles,
      hot_share: found.hotShare,
      hot_vehicles: found.hotVehicles,
    },
  };
}

const usable = (context: PlatformContext): PlatformContext =>
  context.version === CONTEXT_VERSION ? context : unknownPlatform;
