import { BENCH_KEY } from '#tests/bench/open-server.ts';
import { timed } from '#tests/bench/timing.ts';
import type { Body, Form } from './make-bodies.ts';

export interface Sent {
  seconds: number;
  stored: number;
  duplicate: number;
}

/** Sends each list of bodies over a connection of its own, one after the other, until all are acknowledged. */
export async function sendBodies(url: string, queues: readonly Body[][], form: Form): Promise<Sent> {
  const sent: Sent = { seconds: 0, stored: 0, duplicate: 0 };
  sent.seconds = await timed(() =>
    Promise.all(
      queues.map(async (bodies) => {
        for (const body of bodies) {
          const answer = await sendBody(url, body, form);
          sent.stored += answer.stored;
          sent.duplicate += answer.duplicate;
        }
      }),
    ),
  );
  return sent;
}

/** Sends a body, ready-made or as it is made, and answers its receipt. Throws where a line was refused. */
export async function sendBody(
  url: string,
  body: Body | ReadableStream<Uint8Array>,
  form: Form,
): Promise<{ stored: number; duplicate: number }> {
  // Node sends a stream only where this is said, which the types do not know.
  const request: RequestInit & { duplex: 'half' } = {
    method: 'POST',
    headers: {
      authorization: `Bearer ${BENCH_KEY}`,
      'content-type': form === 'CSV' ? 'text/csv' : 'application/x-ndjson',
      ...(form === 'NDJSON gzip' ? { 'content-encoding': 'gzip' } : {}),
    },
    body,
    duplex: 'half',
  };
  const reply = await fetch(`${url}/api/readings`, request);
  const answer = await reply.json();
  if (reply.status !== 200 || answer.refused !== 0)
    throw new Error(`a delivery was answered ${reply.status}: ${JSON.stringify(answer).slice(0, 500)}`);
  return answer;
}
