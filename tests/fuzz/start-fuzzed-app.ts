import type { IncomingMessage } from 'node:http';
import { pino } from 'pino';
import { expect, vi } from 'vitest';
import type { RawClient } from '#db/client.ts';
import { listen } from '#server/listen.ts';
import { startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { createTestDatabase } from '#tests/helpers/database.ts';

const KEY = 'key-of-the-fuzzed-server';
const BODY_LIMIT_BYTES = 1_048_576;

export interface FuzzedApp {
  url: string;
  headers: Record<string, string>;
  client: RawClient;
  /** asks the server without a connection, which is several times as fast */
  ask(path: string, init?: RequestInit): Promise<Response>;
  /** the same without the key */
  askAsNobody(path: string, init?: RequestInit): Promise<Response>;
  /** holds that nothing is left half done, and stops */
  stop(): Promise<void>;
}

/** The whole server with a database of its own, over HTTP and by its fetch function. Bodies have a limit of 1 MiB. */
export async function startFuzzedApp(): Promise<FuzzedApp> {
  const database = await createTestDatabase();
  const settings = {
    ...readSettings({ SLIPDRIFT_API_KEY: KEY }),
    databaseUrl: database.url,
    port: 0,
    maxBodyBytes: BODY_LIMIT_BYTES,
    // Callers say in X-Forwarded-For where they are.
    proxies: 1,
  };
  let answer: Parameters<typeof listen>[0] | undefined;
  const running = await startSlipdrift(settings, pino({ level: process.env.TEST_LOG_LEVEL ?? 'silent' }), {
    listenOn: (fetch) => {
      answer = fetch;
      return listen(fetch, settings.host, settings.port);
    },
  });
  const headers = { authorization: `Bearer ${KEY}` };
  const askAsNobody = async (path: string, init: RequestInit = {}): Promise<Response> => {
    const request = new Request(new URL(path, running.url), { ...init, duplex: 'half' } as RequestInit);
    // What the adapter hands on with a request; the address is all that is asked of it.
    const incoming = { socket: { remoteAddress: '127.0.0.1' }, headers: {} } as unknown as IncomingMessage;
    return (await answer?.(request, { incoming } as never)) as Response;
  };
  return {
    url: running.url,
    headers,
    client: database.client,
    ask: (path, init = {}) => askAsNobody(path, { ...init, headers: { ...headers, ...init.headers } }),
    askAsNobody,
    async stop() {
      await expectAtRest(database.client);
      await running.stop();
      await database.drop();
    },
  };
}

/** No delivery is left in progress, and once the assessment is done every connection is idle. */
async function expectAtRest(client: RawClient): Promise<void> {
  const look = async () => {
    const [row] = await client`
      select count(*)::int as busy from pg_stat_activity
      where datname = current_database() and pid <> pg_backend_pid() and backend_type = 'client backend'
        and state <> 'idle'`;
    return Number(row?.busy);
  };
  await vi.waitFor(async () => expect(await look()).toBe(0), { timeout: 60_000, interval: 250 });
  expect(await client`select id from receipts where status = 0`).toEqual([]);
}
