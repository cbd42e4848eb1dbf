import { parentPort, workerData } from 'node:worker_threads';
import { openDatabase } from '#db/client.ts';
import { toSlipdriftError } from '#server/errors.ts';
import { makePlan, splitPlan } from '#server/services/replay/make-plan.ts';
import type { ReplayedVehicle } from '#server/services/replay/replayed-vehicle.ts';
import { concludeReplay, replayVehicles } from '#server/services/replay/run-replay.ts';
import { DONE, type FromThread, OF, type ReplayWork } from './messages.ts';
import { startThread } from './start-replay-thread.ts';

/** Vehicle days that one thread has done before a second has begun. */
const SHORT = 1_000;

/** The thread of one replay, or of the part that such a thread gives away, with connections of its own. */
const work = workerData as ReplayWork;
const { db, close } = openDatabase(work.databaseUrl, { connections: 2 });
const counts = new Int32Array(work.counts);
const done = (vehicleDays: number) => void Atomics.add(counts, DONE, vehicleDays);

async function run(): Promise<FromThread> {
  if (work.kind === 'part') return { kind: 'part', vehicles: await replayVehicles(db, work.plan, done) };
  const plan = await makePlan({ db }, work.request, work.depots);
  const vehicles = plan.groups.reduce((sum, { asked }) => sum + asked.length, 0);
  Atomics.store(counts, OF, vehicles * plan.dayEndMs.length);
  const isShort = vehicles * plan.dayEndMs.length < SHORT;
  const [own, given] = isShort ? [plan, { ...plan, groups: [] }] : splitPlan(plan);
  const helper =
    given.groups.length === 0
      ? null
      : startThread({ kind: 'part', databaseUrl: work.databaseUrl, counts: work.counts, plan: given });
  const replayed: ReplayedVehicle[] = await replayVehicles(db, own, done);
  const reply = (await helper?.reply) ?? { kind: 'part', vehicles: [] };
  if (reply.kind === 'failed') return reply;
  if (reply.kind === 'part') replayed.push(...reply.vehicles);
  return { kind: 'result', result: await concludeReplay(db, plan, replayed) };
}

run()
  .catch((error: unknown): FromThread => {
    const { message } = error as { message?: string };
    return { kind: 'failed', detail: toSlipdriftError(error).message, message: message ?? String(error) };
  })
  .then(async (reply) => {
    await close();
    parentPort?.postMessage(reply);
  });
