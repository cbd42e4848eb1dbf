import { holdWorkerNumber } from '#db/hold-worker-number.ts';
import { isRankNoted, readLeft, readTouchClock } from '#db/queries/claim-vehicles.ts';
import { askToLearn } from '#db/queries/due-platforms.ts';
import { holdToStorage } from '#db/same-storage.ts';
import type { Context } from '#server/services/context.ts';
import { makeLifeWeeksOf } from '#server/services/lives/life-weeks.ts';
import { assessBuilt } from './assess-built.ts';
import { buildTouched } from './build-touched.ts';
import { learnDuePlatforms } from './learn-due-platforms.ts';
import { rankFleet } from './rank-fleet.ts';
import { isRankDue } from './rank-settings.ts';

export interface UpToDateOptions {
  /** learn again what the platforms of the touched vehicles have in common, however lately that was done */
  learn: boolean;
  /** asked between vehicles; true ends the work early, with nothing lost */
  stopped?: () => boolean;
}

/** Brings everything up to date that was touched until now, and answers how many vehicles were assessed. */
export async function bringUpToDate(
  ctx: Context,
  { learn, stopped = () => false }: UpToDateOptions,
): Promise<number> {
  return workOff(ctx, await beginRun(ctx, learn), stopped);
}

/** Until when vehicles must have been touched for a run that begins now: several workers do it together. */
export async function beginRun({ db }: Pick<Context, 'db'>, learn: boolean): Promise<string> {
  const until = await readTouchClock(db);
  if (learn) await askToLearn(db, until);
  return until;
}

/**
 * One worker's part of a run: stretches, platforms, assessments, ranks, each when the one before is done for all that was touched
 * until then, by whichever worker of the database. Touches only vehicles with new data, and the other vehicles of a platform whose
 * common movement is due to be learned again. A crash or a stop leaves the work noted, and others do it at once; after a
 * restore, that of the backup.
 */
export async function workOff(ctx: Context, until: string, stopped: () => boolean): Promise<number> {
  if (stopped()) return 0;
  return holdWorkerNumber(ctx.db, async (worker, lost) => {
    const run = {
      ctx: { ...ctx, db: await holdToStorage(ctx.db) },
      worker,
      until,
      stopped: () => lost.aborted || stopped(),
    };
    const built: number[] = [];
    let assessed = 0;
    // More than once where vehicles came back to an earlier stage meanwhile: touched anew, or left by a worker that is gone.
    do {
      built.push(...(await buildTouched(run)));
      await learnDuePlatforms(run);
      assessed += await assessBuilt(run);
      if (run.stopped()) return assessed;
    } while (isAnyLeft(await readLeft(run.ctx.db, until)));
    await rankFleet(run.ctx, async (db) => (await isRankNoted(db)) || (await isRankDue(db)));
    // Last: the list does not need them, and whoever does makes what is missing.
    if (!run.stopped()) await makeLifeWeeksOf(run.ctx, [...new Set(built)]);
    return assessed;
  });
}

const isAnyLeft = ({ stretches, assessment }: Awaited<ReturnType<typeof readLeft>>): boolean =>
  stretches || assessment;
