import { claimForStretches, lockClaimed, passClaimed } from '#db/queries/claim-vehicles.ts';
import { refreshStretches } from '#server/services/stretches/refresh-stretches.ts';
import { claimInTurn } from './claim-in-turn.ts';
import type { WorkerRun } from './worker-run.ts';

/**
 * Builds stretches of touched vehicles until none is left, neither free nor in hand of another worker, and answers of which it
 * did itself.
 */
export async function buildTouched(run: WorkerRun): Promise<number[]> {
  const { ctx, worker } = run;
  const built: number[] = [];
  await claimInTurn(run, 'stretches', claimForStretches, async (claimed, ends) => {
    let left = claimed;
    while (left.length > 0 && !ends()) {
      const done = new Set(
        await refreshStretches(ctx, left, {
          stopped: ends,
          async alsoStore(transaction, vehicles) {
            await lockClaimed(transaction, worker, vehicles);
            await passClaimed(transaction, vehicles, 'assessment');
          },
        }),
      );
      built.push(...done);
      left = left.filter(({ vehicle }) => !done.has(vehicle));
    }
  });
  return built;
}
