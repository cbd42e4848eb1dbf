import { pino } from 'pino';
import { createApp } from '#server/app.ts';
import { createMetrics } from '#server/metrics.ts';
import { openStorage } from '#server/open-storage.ts';
import { programActor } from '#server/services/actor.ts';
import { bringUpToDate } from '#server/services/assessment/bring-up-to-date.ts';
import type { Context } from '#server/services/context.ts';
import { createSignInLibrary } from '#server/services/people/sign-in-library.ts';
import { createPreviewDesk } from '#server/services/settings/preview-desk.ts';
import { readSettings, type Settings } from '#server/settings.ts';

/** The whole program without its port: calls go in where a request would, and its clock stands where it is set. */
export interface Program {
  context: Context;
  /** sets the clock of the program, ms since 1970 */
  setClock(ms: number): void;
  get(path: string): Promise<unknown>;
  post(path: string, body: unknown): Promise<unknown>;
  stop(): Promise<void>;
}

/** Nothing listens: nobody else can use it. */
const KEY = 'evaluation-needs-no-secret-beyond-this-process';

export async function startProgram(changes: Partial<Settings>): Promise<Program> {
  const log = pino({ level: process.env.TEST_LOG_LEVEL ?? 'silent' });
  const settings = { ...readSettings({}), ...changes };
  const storage = await openStorage(settings, log);
  let clockMs = Date.now();
  const context: Context = {
    db: storage.db,
    now: () => new Date(clockMs),
    log,
    actor: programActor('evaluation'),
  };
  const app = createApp({
    context,
    // Nothing runs on its own: what the list said at a moment must not hang on how long a delivery took.
    assessment: {
      nudge() {},
      hold: () => () => {},
      async idle() {},
      assessNow: () => bringUpToDate(context, { learn: true }),
      async stop() {},
    },
    metrics: createMetrics(),
    maxBodyBytes: settings.maxBodyBytes,
    bodyIdleMs: settings.bodyIdleMs,
    apiKey: KEY,
    proxies: 0,
    people: {
      library: await createSignInLibrary({
        db: storage.db,
        log,
        secret: KEY,
        publicUrl: null,
        company: null,
      }),
      publicUrl: null,
      companyName: null,
      demo: null,
    },
    previews: createPreviewDesk(async () => null),
    replays: { nudge() {} },
    printer: { print: async () => new Uint8Array() },
    screensFolder: '',
  });
  const call = async (path: string, init?: RequestInit): Promise<unknown> => {
    const answer = await app.request(`http://localhost${path}`, {
      ...init,
      headers: { authorization: `Bearer ${KEY}`, 'content-type': 'application/json' },
    });
    const text = await answer.text();
    if (answer.status !== 200) throw new Error(`${path}: ${answer.status} ${text.slice(0, 500)}`);
    return JSON.parse(text);
  };
  return {
    context,
    setClock(ms) {
      clockMs = ms;
    },
    get: (path) => call(path),
    post: (path, body) => call(path, { method: 'POST', body: JSON.stringify(body) }),
    stop: () => storage.close(),
  };
}
