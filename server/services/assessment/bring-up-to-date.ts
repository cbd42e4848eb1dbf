import { asc, eq, isNull } from 'drizzle-orm';
import { holdLock } from '#db/hold-lock.ts';
import { readStretches } from '#db/queries/read-stretches.ts';
import {
  forgetTakenVehicles,
  type TouchedVehicle,
  takeTouchedVehicles,
} from '#db/queries/take-touched-vehicles.ts';
import { holdToStorage } from '#db/same-storage.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { MOST_LEARNED, takeEvenly } from '#server/engine/platform/take-evenly.ts';
import type { Context } from '#server/services/context.ts';
import { type FleetLives, learnLife, readFleetLives } from '#server/services/lives/learn-life.ts';
import { makeLifeWeeksOf } from '#server/services/lives/life-weeks.ts';
import { readFittedLife } from '#server/services/lives/read-fitted-life.ts';
import { refreshStretches } from '#server/services/stretches/refresh-stretches.ts';
import { assessVehicles } from './assess-vehicles.ts';
import { findDuePlatforms } from './find-due-platforms.ts';
import { groupStretches } from './group-stretches.ts';
import { learnPlatform, NO_PLATFORM, readContext } from './learn-platform.ts';
import { rankFleet } from './rank-fleet.ts';
import { isRankDue } from './rank-settings.ts';

/** One run at a time, whatever processes share the database: an older run must not overwrite what a newer one found. */
const RUN_LOCK = 730_511_505;
/** Vehicles that are assessed in one go. */
const BATCH = 250;
/** Vehicles whose stretches are built at once: while one waits for storage, another reckons. */
const AT_ONCE = 2;

export interface UpToDateOptions {
  /** learn again what the platforms of the touched vehicles have in common, however lately that was done */
  learn: boolean;
  /** asked between vehicles; true ends the work early, with nothing lost */
  stopped?: () => boolean;
}

/**
 * Brings stretches, assessments and ranks up to date with the stored readings. Touches only vehicles with new data,
 * and the other vehicles of a platform whose common movement is due to be learned again. Answers how many vehicles
 * were assessed. A crash or a stop leaves the work noted, and it is done again; after a restore, that of the backup.
 */
export async function bringUpToDate(ctx: Context, options: UpToDateOptions): Promise<number> {
  const { learn, stopped = () => false } = options;
  return (await holdLock(ctx.db, RUN_LOCK, stopped, () => runOnce(ctx, learn, stopped))) ?? 0;
}

async function runOnce(given: Context, learn: boolean, stopped: () => boolean): Promise<number> {
  const ctx = { ...given, db: await holdToStorage(given.db) };
  const touched = await takeTouchedVehicles(ctx.db);
  await refreshAll(ctx, touched, stopped);
  const { due, vehicleDays } = await findDuePlatforms(ctx);
  const byPlatform = new Map<string, number[]>([...due].map((name) => [name, []]));
  for (const { vehicle } of touched) {
    const name = vehicle.platform ?? NO_PLATFORM;
    byPlatform.set(name, [...(byPlatform.get(name) ?? []), vehicle.key]);
  }
  const fleetLives = readOnce(() => readFleetLives(ctx));
  let assessed = 0;
  for (const [name, members] of byPlatform) {
    if (stopped()) return 0;
    const days = learn || due.has(name) ? (vehicleDays.get(name) ?? 0) : null;
    assessed += await assessPlatform(ctx, name, members, days, fleetLives);
  }
  if (stopped()) return 0;
  if (assessed > 0 || (await isRankDue(ctx.db))) await rankFleet(ctx);
  await forgetTakenVehicles(ctx.db);
  // Last: the list does not need them, and whoever does makes what is missing.
  if (!stopped())
    await makeLifeWeeksOf(
      ctx,
      touched.map(({ vehicle }) => vehicle.key),
    );
  return assessed;
}

async function refreshAll(
  ctx: Context,
  touched: readonly TouchedVehicle[],
  stopped: () => boolean,
): Promise<void> {
  const queue = [...touched];
  const work = async () => {
    for (let one = queue.shift(); one !== undefined && !stopped(); one = queue.shift())
      await refreshStretches(ctx, one);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
}

/**
 * Assesses these vehicles of a platform, or all of them where what they have in common is learned again: from
 * readings that span so many days, null where it is not.
 */
async function assessPlatform(
  ctx: Context,
  name: string,
  members: readonly number[],
  learnFromDays: number | null,
  fleetLives: () => Promise<FleetLives>,
): Promise<number> {
  const [platform = null] = await ctx.db.select().from(platforms).where(eq(platforms.id, name));
  const keys = learnFromDays === null ? members : await vehiclesOf(ctx, name);
  // Those of all vehicles of a large platform would not fit in memory, and fewer tell as much.
  const known =
    learnFromDays === null
      ? null
      : groupStretches(await readStretches(ctx.db, takeEvenly(keys, MOST_LEARNED)));
  const context =
    known === null || learnFromDays === null
      ? await readContext(ctx, name)
      : await learnPlatform(ctx, platform, known, learnFromDays);
  if (known !== null && platform !== null) await learnLife(ctx, platform, await fleetLives());
  const fitted = await readFittedLife(ctx.db, platform?.id ?? null);
  const whole = keys.length <= MOST_LEARNED ? known : null;
  for (let from = 0; from < keys.length; from += BATCH) {
    const batch = keys.slice(from, from + BATCH);
    const stretches = whole ?? groupStretches(await readStretches(ctx.db, batch));
    await assessVehicles(ctx, batch, platform, context, stretches, fitted);
  }
  return keys.length;
}

/** What several platforms need alike, read for the first of them. */
function readOnce<T>(read: () => Promise<T>): () => Promise<T> {
  let answer: Promise<T> | null = null;
  return () => {
    answer ??= read();
    return answer;
  };
}

async function vehiclesOf(ctx: Context, name: string): Promise<number[]> {
  const rows = await ctx.db
    .select({ key: vehicles.key })
    .from(vehicles)
    .where(name === NO_PLATFORM ? isNull(vehicles.platform) : eq(vehicles.platform, name))
    .orderBy(asc(vehicles.key));
  return rows.map(({ key }) => key);
}
