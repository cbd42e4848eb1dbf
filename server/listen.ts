import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';
import { createAdaptorServer } from '@hono/node-server';

export interface Listening {
  url: string;
  port: number;
  /**
   * Takes no new requests, lets those in flight end for at most `seconds`, then cuts their connections, and gives their
   * handlers a second to put away what came.
   */
  close(seconds: number): Promise<void>;
}

/** The address cannot be had; the message is one sentence for the person who starts the program. */
export class ListenError extends Error {
  override name = 'ListenError';
  readonly portTaken: boolean;

  constructor(message: string, portTaken: boolean) {
    super(message);
    this.portTaken = portTaken;
  }
}

type Fetch = Parameters<typeof createAdaptorServer>[0]['fetch'];

export interface Timeouts {
  /** for all of a request: a large delivery over a thin line may take this long */
  requestMs: number;
  /** for its header, which fits in a packet or two */
  headerMs: number;
  /** for the next bytes of a body; deliveries have a limit of their own, with an answer, which is met first */
  idleMs: number;
  /** how often the first two are looked after */
  lookMs: number;
}

const TIMEOUTS: Timeouts = { requestMs: 3_600_000, headerMs: 20_000, idleMs: 120_000, lookMs: 10_000 };
/** For handlers whose connection was cut. */
const CUT_MS = 1000;

export async function listen(
  fetch: Fetch,
  host: string,
  port: number,
  timeouts: Timeouts = TIMEOUTS,
): Promise<Listening> {
  let inHand = 0;
  const counted: Fetch = async (...request) => {
    inHand++;
    try {
      return await fetch(...request);
    } finally {
      inHand--;
    }
  };
  const server = createAdaptorServer({
    fetch: counted,
    serverOptions: {
      requestTimeout: timeouts.requestMs,
      headersTimeout: timeouts.headerMs,
      connectionsCheckingInterval: timeouts.lookMs,
    },
  }) as Server;
  const open = watchOpen(server);
  cutStalled(server, timeouts.idleMs);
  await new Promise<void>((settle, fail) => {
    server.once('error', (error) => fail(explain(error, host, port)));
    server.listen(port, host, settle);
  });
  const bound = (server.address() as AddressInfo).port;
  return { url: `http://${urlHost(host)}:${bound}`, port: bound, close };

  async function close(seconds: number): Promise<void> {
    open.closeAfterAnswer();
    await closeServer(server, seconds);
    for (let waitedMs = 0; inHand > 0 && waitedMs < CUT_MS; waitedMs += 20) await sleep(20);
  }
}

/** A connection that is kept alive would bring request after request, and never be idle when the server closes. */
function watchOpen(server: Server): { closeAfterAnswer: () => void } {
  const open = new Set<ServerResponse>();
  let closing = false;
  server.prependListener('request', (_: IncomingMessage, response: ServerResponse) => {
    response.shouldKeepAlive &&= !closing;
    open.add(response);
    response.once('close', () => open.delete(response));
  });
  return {
    closeAfterAnswer() {
      closing = true;
      for (const response of open) response.shouldKeepAlive = false;
    },
  };
}

/** Nothing comes, and nothing that came waits to be read: it is the sender who does not go on. */
function cutStalled(server: Server, idleMs: number): void {
  const reading = new WeakMap<Socket, IncomingMessage>();
  server.prependListener('request', (request: IncomingMessage) => reading.set(request.socket, request));
  server.setTimeout(idleMs, (socket) => {
    const request = reading.get(socket);
    if (request !== undefined && !request.complete && request.readableLength === 0) socket.destroy();
  });
}

function closeServer(server: Server, seconds: number): Promise<void> {
  return new Promise((settle) => {
    const late = setTimeout(() => server.closeAllConnections(), seconds * 1000);
    server.close(() => {
      clearTimeout(late);
      settle();
    });
    server.closeIdleConnections();
  });
}

function explain(error: Error, host: string, port: number): ListenError {
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'EADDRINUSE')
    return new ListenError(
      `Port ${port} on ${host} is in use by another program: set PORT to a free one.`,
      true,
    );
  if (code === 'EACCES')
    return new ListenError(`This user may not use port ${port}: set PORT to one above 1023.`, false);
  return new ListenError(
    `The server cannot listen on ${host}:${port} (${code ?? error.message}): check HOST and PORT.`,
    false,
  );
}

const urlHost = (host: string): string => {
  if (host === '0.0.0.0' || host === '::') return 'localhost';
  return host.includes(':') && !host.startsWith('[') ? `[${host}]` : host;
};
