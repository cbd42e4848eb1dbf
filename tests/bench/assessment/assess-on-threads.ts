import { Worker } from 'node:worker_threads';
import { readAssessedVehicles } from '#db/queries/read-assessed-vehicles.ts';
import { readStretches } from '#db/queries/read-stretches.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { toAssessmentInput } from '#server/services/assessment/assessment-input.ts';
import { readContext } from '#server/services/assessment/learn-platform.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { timed } from '#tests/bench/timing.ts';
import type { AssessmentBatch } from './assess-batch.ts';

/** Vehicles a second on so many threads, each with its share, from stretches in memory. */
export async function assessOnThreads(
  platformsOf: AssessmentBatch['platforms'],
  count: number,
  threads: number,
): Promise<number> {
  const workers = Array.from({ length: threads }, () => {
    const workerData: AssessmentBatch = { platforms: platformsOf, vehicles: Math.ceil(count / threads) };
    return new Worker(new URL('./assess-thread.mjs', import.meta.url), { workerData });
  });
  const once = (worker: Worker) =>
    new Promise((resolve, reject) => worker.once('message', resolve).once('error', reject));
  await Promise.all(workers.map(once));
  const seconds = await timed(() => {
    const done = workers.map(once);
    for (const worker of workers) worker.postMessage('begin');
    return Promise.all(done);
  });
  return count / seconds;
}

/** Platforms as learned, with the first vehicles of the fleet as the assessment takes them. */
export async function collectVehicles(ctx: Context, most: number): Promise<AssessmentBatch['platforms']> {
  const all = (await ctx.db.select().from(vehicles).orderBy(vehicles.key)).slice(0, most);
  const keys = all.map(({ key }) => key);
  const [stretches, facts, book] = await Promise.all([
    readStretches(ctx.db, keys),
    readAssessedVehicles(ctx.db, keys),
    readCodeBook(ctx.db),
  ]);
  const nowMs = ctx.now().getTime();
  const known = await ctx.db.select().from(platforms);
  return Promise.all(
    known.map(async (platform) => {
      const members = new Set(all.filter((one) => one.platform === platform.id).map(({ key }) => key));
      return {
        settings: toEngineSettings(platform),
        context: await readContext(ctx, platform.id),
        vehicles: facts
          .filter(({ vehicle }) => members.has(vehicle))
          .map((one) => toAssessmentInput(one, stretches.of(one.vehicle), book, nowMs, true)),
      };
    }),
  );
}
