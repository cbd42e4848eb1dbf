import { setTimeout as sleep } from 'node:timers/promises';
import { connect, type IClientOptions } from 'mqtt';
import { generate } from 'mqtt-packet';
import type { Logger } from 'pino';
import type { MqttServer } from '#server/mqtt-settings.ts';
import { GATHER_MESSAGES, type Gatherer } from './gather-messages.ts';

export type MqttVersion = 4 | 5;

export interface ConnectionOptions {
  server: MqttServer;
  /** the text of the certificate file */
  ca: string | null;
  clientId: string;
  topic: string;
  version: MqttVersion;
  gatherer: Gatherer;
  log: Logger;
  /** told when readings can come, and when no more can */
  onState: (isConnected: boolean) => void;
  signal: AbortSignal;
}

export interface EndedConnection {
  /** readings could come */
  subscribed: boolean;
  /** the broker answered, and did not want this version */
  otherVersion: boolean;
  /** the broker answered at all */
  answered: boolean;
  why: string;
}

/** One is stored while the next is gathered. */
const RECEIVE_MAXIMUM = 2 * GATHER_MESSAGES;
/** So long the broker keeps messages for us while we are away, if it grants it. */
const SESSION_S = 7 * 86_400;
const KEEP_ALIVE_S = 60;
const CONNECT_MS = 15_000;
const GOODBYE_MS = 1000;
/** CONNACK: unacceptable protocol version, of MQTT 3.1.1 and 5.0. */
const VERSION_REFUSED = [1, 132];

interface Acknowledgement {
  cmd: 'puback' | 'pubrec';
  messageId: number;
}

/** Holds one connection to the broker until it ends, or until it is asked to stop: then stores what is in hand first. */
export async function holdConnection(options: ConnectionOptions): Promise<EndedConnection> {
  const { server, clientId, topic, version, gatherer, log, onState, signal } = options;
  const client = connect(server.url, {
    ...toLibrary(options),
    protocolVersion: version,
    clientId,
    clean: false,
    resubscribe: false,
    reconnectPeriod: 0,
    connectTimeout: CONNECT_MS,
    keepalive: KEEP_ALIVE_S,
    ...(version === 5
      ? { properties: { sessionExpiryInterval: SESSION_S, receiveMaximum: RECEIVE_MAXIMUM } }
      : {}),
  });
  let why = 'the broker closed the connection';
  let [answered, subscribed, otherVersion, isStopping] = [false, false, false, false];
  const closed = new Promise<void>((settle) => {
    client.on('close', settle);
  });
  client.on('error', (error) => {
    why = error.message;
    const { code } = error as { code?: unknown };
    if (typeof code === 'number') answered = true;
    if (VERSION_REFUSED.includes(code as number)) otherVersion = true;
  });
  client.on('disconnect', ({ reasonCode }) => {
    why = `the broker ended the connection (reason ${reasonCode ?? 0})`;
  });
  client.on('connect', () => {
    answered = true;
    client.subscribe(topic, { qos: 1 }, (error) => {
      if (error !== null) {
        why = `the broker does not let us read ${topic}: ${error.message}`;
        client.end(true);
        return;
      }
      subscribed = true;
      onState(true);
      log.info({ topic, version: version === 5 ? '5.0' : '3.1.1' }, 'MQTT: readings can come');
    });
  });
  // The library would acknowledge a message before it goes on to the next. To it each is one that asks for no
  // acknowledgement; that is ours, after the commit, so that many messages are stored together.
  const askedFor = new WeakMap<object, Acknowledgement>();
  client.on('packetreceive', (packet) => {
    if (packet.cmd !== 'publish' || packet.qos === 0 || packet.messageId === undefined) return;
    // With a PUBREC a broker keeps to QoS 2, though it was asked for 1; the library does the rest of that.
    askedFor.set(packet, { cmd: packet.qos === 1 ? 'puback' : 'pubrec', messageId: packet.messageId });
    packet.qos = 0;
  });
  client.handleMessage = (packet, next) => {
    const { topic: from, payload } = packet;
    const { stream } = client;
    const wanted = askedFor.get(packet);
    const acknowledge = () => {
      if (wanted === undefined || client.stream !== stream || !client.connected) return;
      stream.write(generate({ ...wanted, reasonCode: 0 }, { protocolVersion: version }));
    };
    if (isStopping) return next();
    if (payload.length === 0) {
      acknowledge();
      return next();
    }
    const room = gatherer.add({ topic: from, payload: Buffer.from(payload), acknowledge });
    void room.then(() => next());
  };
  const asked = new Promise<void>((settle) => {
    if (signal.aborted) settle();
    signal.addEventListener('abort', () => settle(), { once: true });
  });
  await Promise.race([closed, asked]);
  isStopping = true;
  if (signal.aborted) {
    await gatherer.finish();
    client.end(false);
    await Promise.race([closed, sleep(GOODBYE_MS, undefined, { ref: false })]);
  }
  gatherer.drop();
  client.end(true);
  onState(false);
  return { subscribed, otherVersion, answered, why };
}

function toLibrary({ server: { signIn }, ca }: ConnectionOptions): IClientOptions {
  return {
    ...(signIn === null ? {} : { username: signIn.user, password: signIn.password }),
    ...(ca === null ? {} : { ca }),
  };
}
