import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer } from '@hono/node-server';

export interface Listening {
  url: string;
  port: number;
  /** Takes no new requests, lets those in flight end for at most `seconds`, then closes. */
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

/** A large delivery over a thin line may take this long. */
const LONGEST_REQUEST_MS = 3_600_000;

export async function listen(fetch: Fetch, host: string, port: number): Promise<Listening> {
  const server = createAdaptorServer({ fetch }) as Server;
  server.requestTimeout = LONGEST_REQUEST_MS;
  await new Promise<void>((settle, fail) => {
    server.once('error', (error) => fail(explain(error, host, port)));
    server.listen(port, host, settle);
  });
  const bound = (server.address() as AddressInfo).port;
  return { url: `http://${urlHost(host)}:${bound}`, port: bound, close: (seconds) => close(server, seconds) };
}

function close(server: Server, seconds: number): Promise<void> {
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
