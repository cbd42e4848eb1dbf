import { setTimeout as sleep } from 'node:timers/promises';
import type { Database } from '#db/client.ts';
import { type ClaimOptions, readLeft } from '#db/queries/claim-vehicles.ts';
import { runLanes } from './run-lanes.ts';
import { LANES, LOOK_AGAIN_MS, type WorkerRun } from './worker-run.ts';

const BATCH = 100;

/**
 * Takes vehicles of a stage in hand, some after the others, and does `work` with them, until none is left, neither free nor in
 * hand of another worker. `ends` says while it works that it is to leave the rest.
 */
export async function claimInTurn<T extends { vehicle: number }>(
  { ctx, worker, until, stopped }: WorkerRun,
  stage: 'stretches' | 'assessment',
  claim: (db: Database, options: ClaimOptions) => Promise<T[]>,
  work: (claimed: T[], ends: () => boolean) => Promise<void>,
): Promise<void> {
  let after = 0;
  await runLanes(LANES, async (failed) => {
    const ends = () => stopped() || failed();
    while (!ends()) {
      const claimed = await claim(ctx.db, { worker, until, most: BATCH, after });
      if (claimed.length === 0) {
        if (!(await readLeft(ctx.db, until))[stage]) return;
        await sleep(LOOK_AGAIN_MS);
        after = 0;
      } else {
        after = Math.max(after, ...claimed.map(({ vehicle }) => vehicle));
        await work(claimed, ends);
      }
    }
  });
}
