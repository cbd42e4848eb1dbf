import { setTimeout as sleep } from 'node:timers/promises';
import { asc, eq, isNull } from 'drizzle-orm';
import { claimPlatform } from '#db/queries/claim-vehicles.ts';
import { forgetAsked, listAskedPlatforms, tryLearnLock } from '#db/queries/due-platforms.ts';
import { readStretches } from '#db/queries/read-stretches.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { MOST_LEARNED, takeEvenly } from '#server/engine/platform/take-evenly.ts';
import type { Context } from '#server/services/context.ts';
import { type FleetLives, learnLife, readFleetLives } from '#server/services/lives/learn-life.ts';
import { findDuePlatforms } from './find-due-platforms.ts';
import { learnPlatform, NO_PLATFORM } from './learn-platform.ts';
import { LOOK_AGAIN_MS, type WorkerRun } from './worker-run.ts';

/**
 * Learns the platforms that are due, each by one worker of all, until none is left; what another has in hand is waited for.
 * Every vehicle of a platform that was learned is left to be assessed anew, in the same transaction.
 */
export async function learnDuePlatforms({ ctx, until, stopped }: WorkerRun): Promise<void> {
  const done = new Set<string>();
  const fleetLives = readOnce(() => readFleetLives(ctx));
  while (!stopped()) {
    const { due } = await findDuePlatforms(ctx);
    const asked = await listAskedPlatforms(ctx.db, until);
    const names = new Set([...asked, ...[...due].filter((name) => !done.has(name))]);
    if (names.size === 0) return;
    for (const name of names) {
      if (stopped()) return;
      if (await learnOne(ctx, name, until, fleetLives)) done.add(name);
    }
    await sleep(LOOK_AGAIN_MS);
  }
}

/** False where another worker is learning it. One that is no longer due, since another has just learned it, is done too. */
async function learnOne(
  ctx: Context,
  name: string,
  until: string,
  fleetLives: () => Promise<FleetLives>,
): Promise<boolean> {
  return ctx.db.transaction(async (transaction) => {
    if (!(await tryLearnLock(transaction, name))) return false;
    const { due, vehicleDays } = await findDuePlatforms({ ...ctx, db: transaction });
    const asked = await listAskedPlatforms(transaction, until);
    if (!due.has(name) && !asked.includes(name)) return true;
    const inside = { ...ctx, db: transaction };
    const [platform = null] = await transaction.select().from(platforms).where(eq(platforms.id, name));
    // Those of all vehicles of a large platform would not fit in memory, and fewer tell as much.
    const keys = takeEvenly(await vehiclesOf(inside, name), MOST_LEARNED);
    const known = (await readStretches(transaction, keys)).all();
    await learnPlatform(inside, platform, known, vehicleDays.get(name) ?? 0);
    if (platform !== null) await learnLife(inside, platform, await fleetLives());
    await claimPlatform(transaction, name, until);
    await forgetAsked(transaction, name, until);
    return true;
  });
}

async function vehiclesOf({ db }: Pick<Context, 'db'>, name: string): Promise<number[]> {
  const rows = await db
    .select({ key: vehicles.key })
    .from(vehicles)
    .where(name === NO_PLATFORM ? isNull(vehicles.platform) : eq(vehicles.platform, name))
    .orderBy(asc(vehicles.key));
  return rows.map(({ key }) => key);
}

/** What several platforms need alike, read for the first of them. */
function readOnce<T>(read: () => Promise<T>): () => Promise<T> {
  let answer: Promise<T> | null = null;
  return () => {
    answer ??= read();
    return answer;
  };
}
