import { once } from 'node:events';
import { type AddressInfo, createServer, type Socket } from 'node:net';
import { createServer as createTlsServer } from 'node:tls';
import { Aedes } from 'aedes';
import { Aedes as Aedes5 } from 'aedes-5';
import { connectAsync } from 'mqtt';

export type Broker = Awaited<ReturnType<typeof startBroker>>;

interface BrokerOptions {
  /** of MQTT 5.0, or one that knows 3.1.1 alone */
  version?: 4 | 5;
  port?: number;
  /** speaks TLS with this */
  tls?: { key: string; cert: string };
  /** lets in whom it answers true for */
  signIn?: (user: string | undefined, password: string | undefined) => boolean;
}

/** A real broker with sessions in memory: these outlive `restart`, as on a disk. */
export async function startBroker({ version = 5, port = 0, tls, signIn }: BrokerOptions = {}) {
  const broker = version === 5 ? await Aedes5.createBroker() : await Aedes.createBroker();
  if (signIn !== undefined)
    broker.authenticate = (
      _client: unknown,
      user: string | undefined,
      password: Buffer | undefined,
      done: (error: null, isIn: boolean) => void,
    ) => done(null, signIn(user, password?.toString()));
  const acknowledged: string[] = [];
  broker.on('ack', (packet: unknown, { id }: { id: string }) => {
    if (id.startsWith('slipdrift')) acknowledged.push(JSON.stringify(packet ?? null));
  });
  const clients: string[] = [];
  broker.on('client', ({ id }: { id: string }) => void clients.push(id));
  const sockets = new Set<Socket>();
  const listen = async (on: number) => {
    const take = (socket: Socket) => {
      sockets.add(socket);
      socket.once('close', () => sockets.delete(socket)).on('error', () => {});
      broker.handle(socket);
    };
    const server = tls === undefined ? createServer(take) : createTlsServer(tls, take);
    await once(server.listen(on, '127.0.0.1'), 'listening');
    return server;
  };
  let server = await listen(port);
  const own = (server.address() as AddressInfo).port;
  const url = `${tls === undefined ? 'mqtt' : 'mqtts'}://127.0.0.1:${own}`;
  const away = async () => {
    const closed = once(server, 'close');
    server.close();
    for (const socket of sockets) socket.destroy();
    await closed;
  };
  return {
    url,
    /** ids of the clients that came, in turn */
    clients,
    /** what Slipdrift has acknowledged */
    acknowledged,
    away,
    async back() {
      server = await listen(own);
    },
    /** as a vehicle would: settles when the broker has it */
    async publish(topic: string, payload: string | Buffer, qos: 0 | 1 | 2 = 1) {
      const client = await connectAsync(url, {
        clientId: `vehicle-${Math.random()}`,
        ...(tls === undefined ? {} : { ca: tls.cert }),
      });
      await client.publishAsync(topic, payload, { qos });
      await client.endAsync();
    },
    async stop() {
      await away();
      await new Promise<void>((settle) => broker.close(() => settle()));
    },
  };
}
