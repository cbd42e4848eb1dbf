import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { eq } from 'drizzle-orm';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { readStretches } from '#db/queries/read-stretches.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import type { AssessmentInput } from '#server/engine/assessment/assessment-input.ts';
import { learnPlatform } from '#server/engine/platform/learn-platform.ts';
import { groupStretches } from '#server/services/assessment/group-stretches.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { recipes } from '#tests/evaluate/fleet/recipes.ts';
import { simulateFleet } from '#tests/evaluate/fleet/simulate-fleet.ts';
import { runFleet } from '#tests/evaluate/run-fleet.ts';
import { startProgram } from '#tests/evaluate/start-program.ts';
import { type AssessmentBatch, assessBatch } from './assess-batch.ts';

/**
 * `npm run measure:assessment`: what an assessment takes from stretches, one JSON line a figure. The fleet is one of the
 * evaluation's, 300 vehicles with up to two years of history, delivered and stored first; 10,000 vehicles are these many
 * times over. Some four minutes, on a machine that has nothing else to do.
 */
const VEHICLES = 10_000;
const THREADS = 2;
const DAY_MS = 86_400_000;

const tell = (figure: string, value: number, unit: string) =>
  console.log(JSON.stringify({ figure, value: Math.round(value * 100) / 100, unit }));
const seconds = async (work: () => unknown): Promise<number> => {
  const started = performance.now();
  await work();
  return (performance.now() - started) / 1000;
};

const recipe = recipes.find(({ name }) => name === 'plain');
if (recipe === undefined) throw new Error('there is no plain fleet');
const fleet = simulateFleet(recipe);
const folder = await mkdtemp(join(tmpdir(), 'slipdrift-measure-'));
const program = await startProgram({ dataFolder: folder });
const batches = await (async () => {
  try {
    await runFleet(program, fleet);
    // A day later every platform is due to be learned again, and so every vehicle to be assessed.
    program.setClock(fleet.toMs + DAY_MS + 1);
    tell(
      '300 vehicles, learned and assessed, from stored stretches to stored list, one thread',
      await seconds(() => program.post('/api/assess', {})),
      's',
    );
    return await collect();
  } finally {
    await program.stop();
    removeStorage(folder);
    await rm(folder, { recursive: true, force: true });
  }
})();

/** Platforms as learned, with their vehicles as the assessment takes them. */
async function collect(): Promise<AssessmentBatch['platforms']> {
  const { db } = program.context;
  const known = await db
    .select()
    .from(vehicles)
    .innerJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key));
  const stretches = groupStretches(
    await readStretches(
      db,
      known.map(({ vehicles: { key } }) => key),
    ),
  );
  return (await db.select().from(platforms)).map((platform) => {
    const settings = toEngineSettings(platform);
    const members = known.filter(({ vehicles: { platform: own } }) => own === platform.id);
    const rows = members.map(({ vehicles: { key } }) => stretches.get(key) ?? []);
    return {
      settings,
      context: learnPlatform(rows, settings),
      vehicles: members.map(
        ({ reading_spans: span }, i): AssessmentInput => ({
          stretches: rows[i] ?? [],
          life: { number: rows[i]?.at(-1)?.life ?? 1, fittedKm: null },
          nowKm: span.odometerKm,
          nowMs: fleet.toMs,
          lastReadingMs: span.lastAt.getTime(),
          codes: [],
          hasPlatform: true,
        }),
      ),
    };
  });
}

const all = batches.flatMap(({ vehicles: members }) => members);
tell(
  'stretches of the fleet, all bands',
  all.reduce((sum, one) => sum + one.stretches.length, 0),
  '',
);
const learning = await seconds(() => {
  for (const one of batches)
    learnPlatform(
      one.vehicles.map(({ stretches }) => stretches),
      one.settings,
    );
});
tell(
  'learning one platform, for each of its vehicles (of 400 at the most)',
  (1000 * learning) / all.length,
  'ms',
);

/** The vehicles whose history is so long, cut off to a share of it. */
function withHistory(share: number): AssessmentBatch['platforms'] {
  return batches.map((one) => ({
    ...one,
    vehicles: one.vehicles.flatMap((vehicle) => {
      const from = Math.min(...vehicle.stretches.map((row) => row.firstAtMs));
      const to = Math.max(...vehicle.stretches.map((row) => row.lastAtMs));
      if (to - from < 690 * DAY_MS) return [];
      const after = to - share * (to - from);
      return [{ ...vehicle, stretches: vehicle.stretches.filter((row) => row.firstAtMs >= after) }];
    }),
  }));
}
for (const [share, months] of [
  [0.25, 6],
  [0.5, 12],
  [1, 24],
] as const) {
  const platformsOf = withHistory(share);
  const members = platformsOf.flatMap(({ vehicles: some }) => some);
  assessBatch({ platforms: platformsOf, vehicles: members.length });
  const taken = await seconds(() => assessBatch({ platforms: platformsOf, vehicles: members.length }));
  const rows = members.reduce((sum, one) => sum + one.stretches.length, 0);
  tell(
    `one vehicle with ${months} months, ${Math.round(rows / members.length)} stretches`,
    (1000 * taken) / members.length,
    'ms',
  );
}

const whole = await seconds(async () => {
  await Promise.all(
    Array.from({ length: THREADS }, () => {
      const workerData: AssessmentBatch = { platforms: batches, vehicles: VEHICLES / THREADS };
      const worker = new Worker(new URL('./assess-thread.mjs', import.meta.url), { workerData });
      return new Promise((resolve, reject) => worker.once('message', resolve).once('error', reject));
    }),
  );
});
tell(`${VEHICLES} vehicles on ${THREADS} threads, from stretches in memory`, whole, 's');
