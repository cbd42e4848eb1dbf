import { claimForAssessment, lockClaimed, passClaimed } from '#db/queries/claim-vehicles.ts';
import { readStretches } from '#db/queries/read-stretches.ts';
import { storeAssessments } from '#db/queries/store-assessments.ts';
import { findAssessments } from './assess-vehicles.ts';
import { claimInTurn } from './claim-in-turn.ts';
import { readBasis, readLearnedMark } from './read-basis.ts';
import type { WorkerRun } from './worker-run.ts';

type Claimed = Awaited<ReturnType<typeof claimForAssessment>>;

/** What was found of vehicles of one platform. */
interface Found extends Awaited<ReturnType<typeof findAssessments>> {
  name: string;
  keys: number[];
  learnedMark: string | null;
}

/**
 * Assesses vehicles whose stretches stand until none is left, neither free nor in hand of another worker, and answers how many
 * it did itself.
 */
export async function assessBuilt(run: WorkerRun): Promise<number> {
  const { ctx, worker } = run;
  const bases = new Map<string, ReturnType<typeof readBasis>>();
  let assessed = 0;
  await claimInTurn(run, 'assessment', claimForAssessment, async (claimed) => {
    // In two steps: the other lane may have counted while this one waited.
    const stored = await assessSome(claimed);
    assessed += stored;
  });
  return assessed;

  async function assessSome(claimed: Claimed): Promise<number> {
    const keys = claimed.map(({ vehicle }) => vehicle);
    const stretches = await readStretches(ctx.db, keys);
    const found: Found[] = [];
    for (const [name, own] of byPlatform(claimed)) {
      const reading = bases.get(name) ?? readBasis(ctx, name);
      bases.set(name, reading);
      const { platform, context, fitted, learnedMark } = await reading;
      const { at, rows } = await findAssessments(ctx, own, platform, context, stretches, fitted);
      found.push({ name, keys: own, learnedMark, at, rows });
    }
    return ctx.db.transaction(async (transaction) => {
      await lockClaimed(transaction, worker, keys);
      let stored = 0;
      for (const { name, keys, learnedMark, at, rows } of found) {
        // Whoever learns the platform after this finds the vehicles assessed, and leaves them to be assessed anew.
        const isSame = (await readLearnedMark(transaction, name)) === learnedMark;
        if (isSame) {
          await storeAssessments(transaction, at, rows);
          stored += keys.length;
        } else bases.delete(name);
        await passClaimed(transaction, keys, isSame ? 'rank' : 'assessment');
      }
      return stored;
    });
  }
}

/** Keys of the vehicles of each platform, '' for none, in their order. */
function byPlatform(claimed: Claimed): Map<string, number[]> {
  const groups = new Map<string, number[]>();
  for (const { vehicle, platform } of claimed) {
    const group = groups.get(platform ?? '') ?? [];
    group.push(vehicle);
    groups.set(platform ?? '', group);
  }
  return groups;
}
