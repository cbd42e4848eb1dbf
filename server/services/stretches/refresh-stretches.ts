import { inArray } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { findRebuildWindows, type RebuildWindow } from '#db/queries/find-rebuild-windows.ts';
import { planByIndex } from '#db/queries/plan-by-index.ts';
import { outdateLifeWeeks } from '#db/queries/read-life-weeks.ts';
import { readSpans } from '#db/queries/read-readings.ts';
import { lives, platforms, vehicles } from '#db/schema/fleet.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from './engine-settings.ts';
import { groupBy } from './group-by.ts';
import { numberLives } from './number-lives.ts';
import { rebuildStretches, type StretchJob } from './rebuild-stretches.ts';

/** Serialises the workers that build stretches of the same vehicle; the vehicle's key is the second number. */
const STRETCH_LOCK = 730_511;
/** Readings of one transaction, which holds them in memory; of one vehicle alone all of them. */
const MOST_READINGS = 40_000;
const END_OF_TIME = new Date('9999-12-31T00:00:00Z');

interface RefreshOptions {
  /** asked between vehicles; true ends the work early */
  stopped?: () => boolean;
  /** in the same transaction, with the vehicles whose stretches stand now */
  alsoStore?: (transaction: Database, vehicles: number[]) => Promise<void>;
}

/**
 * Builds the stretches that new readings of vehicles touch again, from all their readings: of as many vehicles, in their order,
 * as fit into one transaction, and answers which. Where a step of the odometer is found or gone, everything after it is built
 * again too. Stretches and steps whose readings retention has dropped stay.
 */
export async function refreshStretches(
  ctx: Context,
  touched: readonly RebuildWindow[],
  { stopped = () => false, alsoStore = async () => {} }: RefreshOptions = {},
): Promise<number[]> {
  return ctx.db.transaction(async (transaction) => {
    const keys = touched.map(({ vehicle }) => vehicle).sort((a, b) => a - b);
    await rawClient(transaction)`
      select pg_advisory_xact_lock(${STRETCH_LOCK}::integer, key)
      from (select key from unnest(${keys}::integer[]) as t(key) order by key) k`;
    const [first, second] = await planByIndex(transaction, async () => {
      const windows = await findRebuildWindows(transaction, touched);
      const spans = await readSpans(transaction, windows);
      let left = MOST_READINGS;
      const chosen = windows.filter(({ vehicle }, i) => {
        left -= spans.get(vehicle)?.n ?? 0;
        return left >= 0 || i === 0;
      });
      const jobs = await toJobs(transaction, chosen);
      const once = await rebuildStretches(transaction, jobs, stopped);
      const again = jobs
        .filter(({ window }) => once.stepsChanged.has(window.vehicle))
        .map((job) => ({ ...job, window: { ...job.window, toAt: END_OF_TIME } }));
      return [once, await rebuildStretches(transaction, again)] as const;
    });
    await outdateLifeWeeks(
      transaction,
      [...new Set([...first.changed, ...second.changed])].sort((a, b) => a - b),
    );
    await alsoStore(transaction, first.built);
    return first.built;
  });
}

async function toJobs(transaction: Database, windows: readonly RebuildWindow[]): Promise<StretchJob[]> {
  const keys = windows.map(({ vehicle }) => vehicle);
  const known = groupBy(
    await transaction.select().from(lives).where(inArray(lives.vehicle, keys)),
    ({ vehicle }) => vehicle,
  );
  const rows = await transaction
    .select({ key: vehicles.key, platform: vehicles.platform })
    .from(vehicles)
    .where(inArray(vehicles.key, keys));
  const platformOf = new Map(rows.map(({ key, platform }) => [key, platform]));
  const all = await transaction.select().from(platforms);
  const settings = new Map(all.map((platform) => [platform.id, toEngineSettings(platform)]));
  const assumed = toEngineSettings(null);
  return windows.map((window) => ({
    window,
    lifeAt: numberLives(known.get(window.vehicle) ?? []),
    settings: settings.get(platformOf.get(window.vehicle) ?? '') ?? assumed,
  }));
}
