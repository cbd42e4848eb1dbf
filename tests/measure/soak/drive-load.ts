import { setTimeout as sleep } from 'node:timers/promises';
import { LINES, SENDERS, unitOf, writeDelivery } from './fleet-feed.ts';

/** Deliveries that come twice: every 25th under its key, and every 25th without one. */
const REPEAT_EVERY = 25;
const RETRIES = 5;
const READ_EVERY_MS = 1000;

export interface Load {
  /** answered deliveries by sender, none left out in between */
  acknowledged: number[];
  errors: string[];
  /** ms from request to the whole answer, by call */
  latencies: Map<string, number[]>;
  /** how far deliveries lay behind their time at the most, ms */
  latestMs(): number;
  /** Sends as fast as answers come, or each sender at its pace, and reads once a second by each call, for so long. */
  run(seconds: number, linesPerS: number | null): Promise<{ linesPerS: number }>;
  /** begins latencies and lateness anew */
  forget(): void;
}

/** What a fleet does to a server: several gateways deliver, and people look at list, outlook, vehicles and series. */
export function createLoad(url: string, headers: Record<string, string>, startMs: number): Load {
  const acknowledged = new Array<number>(SENDERS).fill(0);
  const errors: string[] = [];
  const latencies = new Map<string, number[]>();
  let latestMs = 0;

  const call = async (name: string, path: string, init: RequestInit = {}) => {
    const started = performance.now();
    const answer = await fetch(url + path, { ...init, headers: { ...headers, ...init.headers } });
    const text = await answer.text();
    const times = latencies.get(name);
    if (times === undefined) latencies.set(name, [performance.now() - started]);
    else times.push(performance.now() - started);
    if (answer.status !== 200) throw new Error(`${name} answered ${answer.status}: ${text.slice(0, 200)}`);
    return { replayed: answer.headers.get('Idempotency-Replayed') === 'true', reply: JSON.parse(text) };
  };

  const post = (body: string, key: string | null) =>
    call('delivery', '/api/readings', {
      method: 'POST',
      headers: {
        'content-type': 'application/x-ndjson',
        ...(key === null ? {} : { 'idempotency-key': key }),
      },
      body,
    });

  /** A delivery that failed is sent again, as a gateway would; the failure is told all the same. */
  const deliver = async (sender: number) => {
    const turn = acknowledged[sender] ?? 0;
    const body = writeDelivery(sender, turn, startMs);
    const key = `soak-${sender}-${turn}`;
    for (let tries = 0; ; tries += 1)
      try {
        const { reply } = await post(body, key);
        if (tries === 0 && reply.stored !== LINES) errors.push(`stored ${reply.stored} of ${LINES} lines`);
        break;
      } catch (error) {
        errors.push(String(error));
        if (tries >= RETRIES) throw error;
        await sleep(500);
      }
    acknowledged[sender] = turn + 1;
    if (turn % REPEAT_EVERY === 0) {
      const { replayed, reply } = await post(body, key);
      if (!replayed || reply.stored !== LINES) errors.push('a repeated key did not bring its answer again');
    }
    if (turn % REPEAT_EVERY === 12) {
      const { reply } = await post(body, null);
      if (reply.duplicate !== LINES) errors.push(`${reply.stored} lines were stored twice`);
    }
  };

  const send = async (sender: number, untilMs: number, intervalMs: number | null) => {
    let dueMs = performance.now() + (sender / SENDERS) * (intervalMs ?? 0);
    while (performance.now() < untilMs) {
      if (intervalMs !== null) {
        const waitMs = dueMs - performance.now();
        dueMs += intervalMs;
        if (waitMs > 0) await sleep(waitMs);
        else latestMs = Math.max(latestMs, -waitMs);
      }
      await deliver(sender);
    }
  };

  const read = async (name: string, pathOf: (turn: number) => string, untilMs: number) => {
    for (let turn = 0; performance.now() < untilMs; turn += 1) {
      const dueMs = performance.now() + READ_EVERY_MS;
      await call(name, pathOf(turn)).catch((error: unknown) => errors.push(String(error)));
      await sleep(Math.max(0, Math.min(dueMs, untilMs) - performance.now()));
    }
  };

  return {
    acknowledged,
    errors,
    latencies,
    latestMs: () => latestMs,
    forget() {
      latencies.clear();
      latestMs = 0;
    },
    async run(seconds, linesPerS) {
      const startedMs = performance.now();
      const untilMs = startedMs + seconds * 1000;
      const before = acknowledged.reduce((sum, n) => sum + n, 0);
      const intervalMs = linesPerS === null ? null : (SENDERS * LINES * 1000) / linesPerS;
      const vehicle = (turn: number) => `/api/vehicles/${unitOf(turn % SENDERS, (turn * 10) % 100)}`;
      await Promise.all([
        ...acknowledged.map((_, sender) => send(sender, untilMs, intervalMs)),
        read('list', () => '/api/ranking?limit=100', untilMs),
        read('outlook', () => '/api/ranking/outlook', untilMs),
        read('vehicle', vehicle, untilMs),
        read('series', (turn) => `${vehicle(turn)}/series`, untilMs),
      ]);
      const delivered = (acknowledged.reduce((sum, n) => sum + n, 0) - before) * LINES;
      return { linesPerS: delivered / ((performance.now() - startedMs) / 1000) };
    },
  };
}
