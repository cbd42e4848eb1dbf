import type { Logger } from 'pino';
import { openDatabase } from '#db/client.ts';
import { attachEmbedded } from '#db/embedded/attach-embedded.ts';
import { StorageError } from '#db/storage-error.ts';
import { startAssessmentThreads } from './assessment-thread/start-assessment-threads.ts';
import { endWithin } from './end-within.ts';
import { createMetrics } from './metrics.ts';
import { openStorage } from './open-storage.ts';
import { createReplayRunner } from './replay-thread/start-replay-thread.ts';
import { programActor } from './services/actor.ts';
import { createAssessmentWorker } from './services/assessment/create-worker.ts';
import type { Context } from './services/context.ts';
import { createReplayDesk } from './services/replay/replay-desk.ts';
import type { Settings } from './settings.ts';
import { readyBackground, startBackground } from './start-background.ts';

/** The vehicles in hand have this long to end once a stop is asked for. */
const DRAIN_S = 5;
/** What has not ended by then waits for a database that does not answer. */
const END_S = DRAIN_S + 2;
const CLOSE_S = 1;

export interface Working {
  /** Settles when storage goes away by itself; never, where the server is another's. */
  lost: Promise<void>;
  stop(): Promise<void>;
}

/** A process that does what is due, beside those that answer, and answers nothing itself. */
export async function startWork(settings: Settings, log: Logger): Promise<Working> {
  const readied = await readyBackground(settings);
  const storage = await joinStorage(settings, log);
  try {
    const context: Context = {
      db: storage.db,
      now: () => new Date(),
      log,
      actor: programActor('slipdrift'),
    };
    const threads = startAssessmentThreads(
      context,
      { databaseUrl: storage.url, clockShiftMs: 0 },
      settings.workers,
    );
    const assessment = createAssessmentWorker(context, { runOnce: threads.run });
    const replays = createReplayDesk(context, createReplayRunner(storage.url));
    const background = await startBackground(context, settings, readied, createMetrics(), assessment);
    log.info({ workers: settings.workers }, 'working');
    return {
      lost: storage.lost,
      async stop() {
        log.info('stopping');
        await endWithin(END_S, [assessment.stop(), threads.stop(DRAIN_S), replays.stop(), background.stop()]);
        await storage.close();
        log.info('stopped');
      },
    };
  } catch (error) {
    await storage.close();
    throw error;
  }
}

/** The database of `DATABASE_URL`, or that of the Slipdrift which runs on the data folder: a worker starts none of its own. */
async function joinStorage(settings: Settings, log: Logger) {
  if (settings.databaseUrl !== null) return openStorage(settings, log);
  const url = await attachEmbedded(settings.dataFolder);
  if (url === null)
    throw new StorageError(
      `No Slipdrift serves on ${settings.dataFolder}, and a worker starts no storage of its own: set DATABASE_URL, or start slipdrift serve on that folder first.`,
    );
  const { db, close } = openDatabase(url);
  return { db, url, lost: new Promise<void>(() => {}), close: () => close(CLOSE_S) };
}
