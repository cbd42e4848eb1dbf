import { once } from 'node:events';
import { createConnection, createServer, type Socket } from 'node:net';

export interface CutDatabase {
  url: string;
  /** From now on a connection is cut when the server answers what has these words in it; null for none. */
  cutAt(words: string | null): void;
  close(): Promise<void>;
}

/** Messages of the client: a statement gets a name, and is later asked for by that alone. */
const PARSE = /P[\s\S]{4}(\w+)\0([^\0]*)\0/g;
const BIND = /B[\s\S]{4}\0(\w+)\0/g;

/** Stands in front of a PostgreSQL, and loses its answers: what was asked is done, but nobody is told. */
export async function cutDatabase(url: string): Promise<CutDatabase> {
  const to = new URL(url);
  const folder = to.searchParams.get('host');
  const port = to.port === '' ? 5432 : Number(to.port);
  const connect = () =>
    folder === null ? createConnection(port, to.hostname) : createConnection(`${folder}/.s.PGSQL.${port}`);
  const sockets = new Set<Socket>();
  const when: { cut: string | null } = { cut: null };
  const proxy = createServer((client) => {
    const server = connect();
    const prepared = new Map<string, string>();
    let isLost = false;
    client.on('data', (chunk) => {
      const sent = chunk.toString('latin1');
      for (const [, name = '', text = ''] of sent.matchAll(PARSE)) prepared.set(name, text);
      const bound = [...sent.matchAll(BIND)].map(([, name = '']) => prepared.get(name));
      const { cut } = when;
      isLost ||= cut !== null && [sent, ...bound].some((text) => text?.includes(cut));
      server.write(chunk);
    });
    server.on('data', (chunk) => (isLost ? client.destroy() : client.write(chunk)));
    for (const [one, other] of [
      [client, server],
      [server, client],
    ] as const) {
      sockets.add(one);
      one.on('error', () => {});
      one.on('close', () => {
        sockets.delete(one);
        other.destroy();
      });
    }
  });
  proxy.listen(0, '127.0.0.1');
  await once(proxy, 'listening');
  const address = proxy.address();
  to.searchParams.delete('host');
  to.hostname = '127.0.0.1';
  to.port = String(typeof address === 'object' ? address?.port : '');
  return {
    url: to.href,
    cutAt(words) {
      when.cut = words;
    },
    async close() {
      for (const socket of sockets) socket.destroy();
      proxy.close();
      await once(proxy, 'close');
    },
  };
}
