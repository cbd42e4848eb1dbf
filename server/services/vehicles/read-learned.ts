import type { Database } from '#db/client.ts';
import { type FoundContext, findPlatformContext } from '#db/queries/find-platform-context.ts';
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

export interface Kept {
  version: string;
  context: PlatformContext;
}

/** Contexts that were read before: large, and the same until the platform is learned anew, which its row tells. */
const keptOf = new WeakMap<Database, Map<string, Kept>>();

/** What was last learned of a platform: what its vehicles have in common, and what is usual on it. */
export async function readLearned(db: Database, platform: string): Promise<Learned> {
  const known = findKept(db, platform);
  return takeLearned(db, platform, known, await findPlatformContext(db, platform, known?.version ?? ''));
}

/** The context that was read before, for a read that need not bring it again. */
export const findKept = (db: Database, platform: string): Kept | undefined => keptOf.get(db)?.get(platform);

/** The same of what was read, which lacks the context where that is of the version that was known before the read. */
export function takeLearned(
  db: Database,
  platform: string,
  known: Kept | undefined,
  found: FoundContext | null,
): Learned {
  if (found === null) return { context: unknownPlatform, usual: null };
  const same = known !== undefined && known.version === found.version;
  const context = same ? known.context : usable(found.context as PlatformContext);
  if (!same) keep(db, platform, { version: found.version, context });
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

function keep(db: Database, platform: string, learned: Kept): void {
  const kept = keptOf.get(db) ?? new Map<string, Kept>();
  keptOf.set(db, kept);
  kept.set(platform, learned);
}

const usable = (context: PlatformContext): PlatformContext =>
  context.version === CONTEXT_VERSION ? context : unknownPlatform;
