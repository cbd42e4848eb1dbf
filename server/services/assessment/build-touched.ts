import { setTimeout as sleep } from 'node:timers/promises';
import { claimForStretches, lockClaimed, passClaimed, readLeft } from '#db/queries/claim-vehicles.ts';
import { refreshStretches } from '#server/services/stretches/refresh-stretches.ts';
import { runLanes } from './run-lanes.ts';
import { LANES, LOOK_AGAIN_MS, type WorkerRun } from './worker-run.ts';

const BATCH = 100;

/**
 * Builds stretches of touched vehicles until none is left, neither free nor in hand of another worker, and answers of which it
 * did itself.
 */
export async function buildTouched({ ctx, worker, until, stopped }: WorkerRun): Promise<number[]> {
  const built: number[] = [];
  let after = 0;
  await runLanes(LANES, async (failed) => {
    const ends = () => stopped() || failed();
    while (!ends()) {
      let claimed = await claimForStretches(ctx.db, { worker, until, most: BATCH, after });
      if (claimed.length === 0) {
        if (!(await readLeft(ctx.db, until)).stretches) return;
        await sleep(LOOK_AGAIN_MS);
        after = 0;
      }
      after = Math.max(after, ...claimed.map(({ vehicle }) => vehicle));
      while (claimed.length > 0 && !ends()) {
        const done = new Set(
          await refreshStretches(ctx, claimed, {
            stopped: ends,
            async alsoStore(transaction, vehicles) {
              await lockClaimed(transaction, worker, vehicles);
              await passClaimed(transaction, vehicles, 'assessment');
            },
          }),
        );
        built.push(...done);
        claimed = claimed.filter(({ vehicle }) => !done.has(vehicle));
      }
    }
  });
  return built;
}
