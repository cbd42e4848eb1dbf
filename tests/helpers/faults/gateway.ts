import { setTimeout as sleep } from 'node:timers/promises';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';
import type { FaultDelivery } from './fault-feed.ts';

export interface Acknowledged {
  delivery: FaultDelivery;
  reply: DeliveryReply;
}

export interface Gateway {
  /** sends until it is acknowledged, as a gateway does */
  send(delivery: FaultDelivery): Promise<void>;
  acknowledged: Acknowledged[];
  /** how often each status came; 0 for a connection that broke */
  statuses: Map<number, number>;
  /** answers that no sender should get, in words */
  wrong: string[];
}

interface GatewayOptions {
  /** where to send the nth try */
  url: (attempt: number) => string;
  /** a delivery that is not acknowledged within this fails the test */
  patienceMs?: number;
}

const PAUSE_MS = 100;
/** What a sender is asked to try again after, with what must come with it. */
const AGAIN: Record<number, 'retry-after' | 'nothing'> = {
  408: 'nothing',
  409: 'retry-after',
  503: 'retry-after',
  507: 'nothing',
};

/** A sender that never gives up, and notes every answer that it should not have had. */
export function createGateway({ url, patienceMs = 90_000 }: GatewayOptions): Gateway {
  const acknowledged: Acknowledged[] = [];
  const statuses = new Map<number, number>();
  const wrong: string[] = [];

  async function attempt(delivery: FaultDelivery, n: number): Promise<DeliveryReply | null> {
    const response = await fetch(`${url(n)}/api/readings`, {
      method: 'POST',
      headers: {
        ...withTestKey,
        'content-type': 'application/x-ndjson',
        ...(delivery.key === null ? {} : { 'idempotency-key': delivery.key }),
      },
      body: delivery.body,
      signal: AbortSignal.timeout(patienceMs),
    }).catch(() => null);
    const text = await response?.text().catch(() => null);
    const status = response === null || typeof text !== 'string' ? 0 : response.status;
    statuses.set(status, (statuses.get(status) ?? 0) + 1);
    if (response === null || typeof text !== 'string') return null;
    if (status === 200) return JSON.parse(text) as DeliveryReply;
    const needed = AGAIN[status];
    const isProblem = response.headers.get('content-type') === 'application/problem+json';
    const hasRetryAfter = Number(response.headers.get('retry-after')) > 0;
    if (needed === undefined || !isProblem || (needed === 'retry-after' && !hasRetryAfter))
      wrong.push(`${status} ${text.slice(0, 300)}`);
    return null;
  }

  return {
    acknowledged,
    statuses,
    wrong,
    async send(delivery) {
      const untilMs = Date.now() + patienceMs;
      for (let n = 0; Date.now() < untilMs; n++) {
        const reply = await attempt(delivery, n);
        if (reply !== null) {
          acknowledged.push({ delivery, reply });
          return;
        }
        await sleep(PAUSE_MS);
      }
      const seen = JSON.stringify([...statuses]);
      throw new Error(
        `A delivery was not acknowledged within ${patienceMs} ms: ${seen} ${wrong.at(-1) ?? ''}`,
      );
    },
  };
}

/** Sends all of these, so many at once. */
export async function sendAll(
  gateway: Gateway,
  deliveries: readonly FaultDelivery[],
  atOnce: number,
): Promise<void> {
  const queue = [...deliveries];
  const work = async () => {
    for (let next = queue.shift(); next !== undefined; next = queue.shift()) await gateway.send(next);
  };
  await Promise.all(Array.from({ length: atOnce }, work));
}
