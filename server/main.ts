import { fileURLToPath } from 'node:url';
import type { Logger } from 'pino';
import { readWaiting } from '#db/queries/read-waiting.ts';
import { createApp } from './app.ts';
import { startAssessmentThreads } from './assessment-thread/start-assessment-threads.ts';
import { endWithin } from './end-within.ts';
import { type Listening, listen } from './listen.ts';
import { createMetrics } from './metrics.ts';
import { openStorage } from './open-storage.ts';
import { createPacketPrinter } from './packet-pdf/create-packet-printer.ts';
import { startPreviewThread } from './preview-thread/start-preview-thread.ts';
import { createReplayRunner } from './replay-thread/start-replay-thread.ts';
import { readSecret } from './services/access/read-secret.ts';
import { programActor } from './services/actor.ts';
import { type AssessmentWorker, createAssessmentWorker } from './services/assessment/create-worker.ts';
import type { Context } from './services/context.ts';
import { addDemoAccounts, type DemoAccounts } from './services/people/demo-accounts.ts';
import type { PeopleDesk } from './services/people/people-desk.ts';
import { createSignInLibrary, loadSignInModules } from './services/people/sign-in-library.ts';
import { createReplayDesk, type ReplayDesk } from './services/replay/replay-desk.ts';
import { createPreviewDesk } from './services/settings/preview-desk.ts';
import { countConnections } from './services/storage/count-connections.ts';
import { readStorageFigures } from './services/storage/read-storage-figures.ts';
import type { Settings } from './settings.ts';
import { limitUpkeep, readyBackground, startBackground } from './start-background.ts';

/**
 * Deliveries in flight have this long to end once a stop is asked for, and the assessment as long. With what storage
 * takes to close, the whole stop is within the ten seconds that supervisors give before they kill: so does `docker stop`.
 */
const DRAIN_S = 5;
/** What has not ended by then waits for a database that does not answer. */
const END_S = DRAIN_S + 2;

export interface Running {
  url: string;
  port: number;
  context: Context;
  people: PeopleDesk;
  assessment: AssessmentWorker;
  /** Settles when storage goes away by itself, so that whoever watches us can start afresh. */
  lost: Promise<void>;
  stop(): Promise<void>;
}

export interface StartOptions {
  /** tries these ports in turn instead of the one set */
  listenOn?: (fetch: Parameters<typeof listen>[0]) => Promise<Listening>;
  /** added to the machine's clock, for a fleet whose readings end at another time than now */
  clockShiftMs?: number;
  /** accounts to make, and to show to whoever opens the sign-in */
  demo?: DemoAccounts | null;
}

const screensFolder = fileURLToPath(new URL('../web/dist', import.meta.url));

/** Replays that other processes run: they look for them every few seconds. */
const elsewhere: ReplayDesk = { nudge() {}, async stop() {} };

/** Storage, background work, HTTP: started in this order and stopped in the opposite one. */
export async function startSlipdrift(
  settings: Settings,
  log: Logger,
  {
    listenOn = (fetch) => listen(fetch, settings.host, settings.port),
    clockShiftMs = 0,
    demo = null,
  }: StartOptions = {},
): Promise<Running> {
  const readied = await readyBackground(settings);
  const worksHere = settings.work === 'here';
  const [storage] = await Promise.all([openStorage(settings, log), loadSignInModules()]);
  try {
    const context: Context = {
      db: storage.db,
      now: () => new Date(Date.now() + clockShiftMs),
      log,
      actor: programActor('slipdrift'),
    };
    const threads = startAssessmentThreads(
      context,
      { databaseUrl: storage.url, clockShiftMs },
      settings.workers,
    );
    const previewThread = startPreviewThread({ databaseUrl: storage.url, clockShiftMs });
    const previews = createPreviewDesk(previewThread.make);
    const printer = createPacketPrinter();
    const replays = worksHere ? createReplayDesk(context, createReplayRunner(storage.url)) : elsewhere;
    const metrics = createMetrics({
      waiting: () => readWaiting(storage.db),
      connections: () => countConnections(storage.db),
      storage: () => readStorageFigures(storage.db),
    });
    const assessment = createAssessmentWorker(context, {
      looks: worksHere,
      async runOnce(options) {
        const end = metrics.assessments.startTimer();
        const assessed = await threads.run(options);
        if (assessed > 0) end();
        return assessed;
      },
    });
    const library = await createSignInLibrary({
      db: storage.db,
      log,
      secret: await readSecret(context),
      publicUrl: settings.publicUrl,
      company: settings.company,
    });
    const people: PeopleDesk = {
      library,
      publicUrl: settings.publicUrl,
      companyName: settings.company?.name ?? null,
      demo: demo === null ? null : await addDemoAccounts(context, library, demo),
    };
    const app = createApp({
      context,
      assessment,
      metrics,
      maxBodyBytes: settings.maxBodyBytes,
      bodyIdleMs: settings.bodyIdleMs,
      apiKey: settings.apiKey,
      proxies: settings.proxies,
      people,
      previews,
      replays,
      printer,
      canMail: readied.mailer !== null,
      upkeepLimits: limitUpkeep(settings),
      screensFolder,
    });
    const listening = await listenOn(app.fetch);
    const background = worksHere
      ? await startBackground(context, settings, readied, metrics, assessment)
      : null;
    log.info({ url: listening.url }, 'listening');
    return {
      url: listening.url,
      port: listening.port,
      context,
      people,
      assessment,
      lost: storage.lost,
      async stop() {
        log.info('stopping');
        previews.stop();
        const ended = await endWithin(END_S, [
          listening.close(DRAIN_S),
          assessment.stop(),
          threads.stop(DRAIN_S),
          previewThread.stop(),
          replays.stop(),
          printer.close(),
          background?.stop(),
        ]);
        if (!ended) log.warn('something still waits for the database: it is not waited for');
        await storage.close();
        log.info('stopped');
      },
    };
  } catch (error) {
    await storage.close();
    throw error;
  }
}
