import { setTimeout as sleep } from 'node:timers/promises';
import { claimForAssessment, lockClaimed, passClaimed, readLeft } from '#db/queries/claim-vehicles.ts';
import { readStretches } from '#db/queries/read-stretches.ts';
import { storeAssessments } from '#db/queries/store-assessments.ts';
import { findAssessments } from './assess-vehicles.ts';
import { groupStretches } from './group-stretches.ts';
import { readBasis, readLearnedMark } from './read-basis.ts';
import { runLanes } from './run-lanes.ts';
import { LANES, LOOK_AGAIN_MS, type WorkerRun } from './worker-run.ts';

const BATCH = 100;

/**
 * Assesses vehicles whose stretches stand until none is left, neither free nor in hand of another worker, and answers how many
 * it did itself.
 */
export async function assessBuilt(run: WorkerRun): Promise<number> {
  const { ctx, worker, until, stopped } = run;
  const bases = new Map<string, ReturnType<typeof readBasis>>();
  let assessed = 0;
  await runLanes(LANES, async (failed) => {
    while (!stopped() && !failed()) {
      const claimed = await claimForAssessment(ctx.db, { worker, until, most: BATCH });
      if (claimed.length === 0) {
        if (!(await readLeft(ctx.db, until)).assessment) return;
        await sleep(LOOK_AGAIN_MS);
      }
      for (const [name, keys] of byPlatform(claimed)) {
        if (stopped() || failed()) return;
        const basis = bases.get(name) ?? readBasis(ctx, name);
        bases.set(name, basis);
        const isStored = await assessSome(run, name, keys, await basis);
        if (isStored) assessed += keys.length;
        else bases.delete(name);
      }
    }
  });
  return assessed;

  async function assessSome(
    { ctx, worker }: WorkerRun,
    name: string,
    keys: readonly number[],
    { platform, context, fitted, learnedMark }: Awaited<ReturnType<typeof readBasis>>,
  ): Promise<boolean> {
    const stretches = groupStretches(await readStretches(ctx.db, keys));
    const { at, rows } = await findAssessments(ctx, keys, platform, context, stretches, fitted);
    return ctx.db.transaction(async (transaction) => {
      await lockClaimed(transaction, worker, keys);
      // Whoever learns the platform after this finds the vehicles assessed, and leaves them to be assessed anew.
      const isSame = (await readLearnedMark(transaction, name)) === learnedMark;
      if (isSame) await storeAssessments(transaction, at, rows);
      await passClaimed(transaction, keys, isSame ? 'rank' : 'assessment');
      return isSame;
    });
  }
}

function byPlatform(claimed: readonly { vehicle: number; platform: string | null }[]): Map<string, number[]> {
  const groups = new Map<string, number[]>();
  for (const { vehicle, platform } of claimed) {
    const name = platform ?? '';
    groups.set(name, [...(groups.get(name) ?? []), vehicle]);
  }
  return groups;
}
