import { once } from 'node:events';
import { createServer, type IncomingHttpHeaders } from 'node:http';
import type { AddressInfo } from 'node:net';
import { text } from 'node:stream/consumers';

export interface TakenPost {
  method: string;
  /** as it was called */
  url: string;
  headers: IncomingHttpHeaders;
  body: string;
}

export interface Reply {
  status: number;
  headers?: Record<string, string>;
  text?: string;
  /** comes after this; a promise that never settles is a receiver that hangs */
  after?: Promise<void>;
}

export type Receiver = Awaited<ReturnType<typeof startReceiver>>;

/** A program that is told by webhooks: keeps what it gets and answers by `reply`, 204 unless it is set. */
export async function startReceiver() {
  const taken: TakenPost[] = [];
  const server = createServer(async (request, response) => {
    const { method = '', url = '', headers } = request;
    taken.push({ method, url: `http://${headers.host}${url}`, headers, body: await text(request) });
    const { status, headers: own = {}, text: said = '', after } = receiver.reply(taken.length);
    await after;
    response.writeHead(status, own).end(said);
  });
  await once(server.listen(0, '127.0.0.1'), 'listening');
  const receiver = {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/told`,
    taken,
    /** given how many came so far */
    reply: (_count: number): Reply => ({ status: 204 }),
    async stop(): Promise<void> {
      server.closeAllConnections();
      server.close();
    },
  };
  return receiver;
}
