import { pino } from 'pino';
import type { Database, RawClient } from '#db/client.ts';
import { type Running, startSlipdrift } from '#server/main.ts';
import { readSettings, type Settings } from '#server/settings.ts';
import { createTestDatabase } from './database.ts';
import { TEST_KEY } from './test-key.ts';

export interface TestApp {
  url: string;
  running: Running;
  databaseUrl: string;
  db: Database;
  client: RawClient;
  /** `fetch` with the address in front, as the set-up key unless the headers say otherwise */
  get(path: string, headers?: Record<string, string>): Promise<Response>;
  /** text, Blobs and streams go as they are, everything else as JSON */
  post(path: string, body: unknown, headers?: Record<string, string>): Promise<Response>;
  stop(): Promise<void>;
}

/**
 * The whole server on a free port with a database of its own; start one in `beforeAll`, stop it in `afterAll`. Its
 * clock begins at `now`.
 */
export async function startApp(changes: Partial<Settings> = {}, now = new Date()): Promise<TestApp> {
  const database = await createTestDatabase();
  const settings = {
    ...readSettings({}),
    databaseUrl: database.url,
    port: 0,
    apiKey: TEST_KEY,
    ...changes,
  };
  const running = await startSlipdrift(settings, pino({ level: process.env.TEST_LOG_LEVEL ?? 'silent' }), {
    clockShiftMs: now.getTime() - Date.now(),
  });
  return {
    url: running.url,
    running,
    databaseUrl: database.url,
    db: database.db,
    client: database.client,
    ...callsTo(running.url),
    async stop() {
      await running.stop();
      await database.drop();
    },
  };
}

/** How tests call a server that runs, with its set-up key. */
export const callsTo = (url: string, key: string = TEST_KEY): Pick<TestApp, 'get' | 'post'> => ({
  get: (path, headers = {}) =>
    fetch(`${url}${path}`, { headers: { authorization: `Bearer ${key}`, ...headers } }),
  post: (path, body, headers = {}) =>
    fetch(`${url}${path}`, {
      method: 'POST',
      headers: { authorization: `Bearer ${key}`, 'content-type': 'application/json', ...headers },
      body: isReady(body) ? body : JSON.stringify(body),
      duplex: 'half',
    } as RequestInit),
});

const isReady = (body: unknown): body is string | Blob | ReadableStream =>
  typeof body === 'string' || body instanceof Blob || body instanceof ReadableStream;
