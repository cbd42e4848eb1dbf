import { randomUUID } from 'node:crypto';
import { setTimeout as sleep } from 'node:timers/promises';
import { keepLock } from '#db/keep-lock.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import type { MqttSettings } from '#server/mqtt-settings.ts';
import { readMadeOnce } from '#server/services/access/read-made-once.ts';
import type { Context } from '#server/services/context.ts';
import { createGatherer } from './gather-messages.ts';
import { holdConnection, type MqttVersion } from './hold-connection.ts';
import { storeMessages } from './store-messages.ts';

/** One program of a database reads from the broker; another takes over where that one goes. */
const MQTT_LOCK = 730_511_620;
const FIRST_PAUSE_MS = 1000;
const LONGEST_PAUSE_MS = 60_000;
/** What is in hand at a stop has so long to be stored; the broker gives it again otherwise. */
const FINISH_MS = 5000;

export interface SubscriberOptions extends MqttSettings {
  /** the text of the certificate file */
  ca: string | null;
  limitBytes: number;
  onReply: (reply: DeliveryReply) => void;
  onState: (isConnected: boolean) => void;
}

export interface Subscriber {
  stop(): Promise<void>;
}

/** Reads readings from a broker for as long as the program runs, whether or not the broker is there. */
export async function startSubscriber(ctx: Context, options: SubscriberOptions): Promise<Subscriber> {
  const id = await readMadeOnce(ctx, 'mqtt-client-id', randomUUID);
  // MQTT 3.1.1, 3.1.3.1: every broker takes 23 letters and digits.
  const clientId = `slipdrift${id.replaceAll('-', '').slice(0, 14)}`;
  const stopping = new AbortController();
  const running = keepLock(
    ctx.db,
    MQTT_LOCK,
    stopping.signal,
    (signal) => keepConnected(ctx, options, clientId, signal),
    (error) => ctx.log.warn({ err: error }, 'MQTT: reading was interrupted; it is taken up again'),
  );
  return {
    async stop() {
      stopping.abort();
      await Promise.race([running, sleep(FINISH_MS, undefined, { ref: false })]);
    },
  };
}

async function keepConnected(
  ctx: Context,
  { server, ca, topic, limitBytes, onReply, onState }: SubscriberOptions,
  clientId: string,
  signal: AbortSignal,
): Promise<void> {
  const { log } = ctx;
  let version: MqttVersion = 5;
  let isKnown = false;
  let pauseMs = FIRST_PAUSE_MS;
  let isWaitTold = false;
  while (!signal.aborted) {
    const gatherer = createGatherer(
      async (messages) => {
        for (const reply of await storeMessages(ctx, messages, { topic, limitBytes })) onReply(reply);
        if (isWaitTold) log.info('MQTT: messages are stored again');
        isWaitTold = false;
      },
      (error) => {
        if (!isWaitTold)
          log.warn(
            { err: error },
            'MQTT: messages cannot be stored; they stay with the broker until they can',
          );
        isWaitTold = true;
      },
    );
    const ended = await holdConnection({
      server,
      ca,
      clientId,
      topic,
      version,
      gatherer,
      log,
      onState,
      signal,
    });
    if (signal.aborted) return;
    isKnown ||= ended.subscribed;
    if (ended.otherVersion || (!isKnown && !ended.answered)) version = version === 5 ? 4 : 5;
    if (ended.subscribed || pauseMs === FIRST_PAUSE_MS)
      log.warn({ why: ended.why }, 'MQTT: no connection to the broker; it is tried again');
    if (ended.subscribed) pauseMs = FIRST_PAUSE_MS;
    const isOnlyVersion = ended.otherVersion && version === 4;
    await sleep(isOnlyVersion ? 0 : pauseMs * (0.8 + 0.4 * Math.random()), undefined, { signal }).catch(
      () => {},
    );
    pauseMs = Math.min(2 * pauseMs, LONGEST_PAUSE_MS);
  }
}
