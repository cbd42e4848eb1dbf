import { setTimeout as sleep } from 'node:timers/promises';
import type { Message } from './message.ts';

/** So many, or what comes in so long, are one delivery. */
export const GATHER_MESSAGES = 500;
const GATHER_MS = 200;
const GATHER_BYTES = 8 * 1_048_576;
/** So much is held while storage is busy or away; then no more is read from the broker. */
const HELD_MESSAGES = 4 * GATHER_MESSAGES;
const HELD_BYTES = 4 * GATHER_BYTES;
const FIRST_AGAIN_MS = 1000;
const LONGEST_AGAIN_MS = 30_000;

export interface Gatherer {
  /** settles when there is room for another */
  add(message: Message): Promise<void>;
  /** stores what is in hand, once, and ends */
  finish(): Promise<void>;
  /** forgets what is not being stored: the broker will give it again */
  drop(): void;
}

/**
 * Gathers the messages of one connection into deliveries and acknowledges them after each one's commit. Where storage
 * declines, the same messages are tried again; `onWait` is told once, and `onStored` after each commit.
 */
export function createGatherer(
  store: (messages: readonly Message[]) => Promise<void>,
  onWait: (error: unknown) => void,
): Gatherer {
  let waiting: Message[] = [];
  let waitingBytes = 0;
  let timer: NodeJS.Timeout | undefined;
  let storing: Promise<void> | null = null;
  const stopping = new AbortController();
  let isDropped = false;
  const onRoom: (() => void)[] = [];

  const take = (): Message[] => {
    let bytes = 0;
    let count = 0;
    for (const { payload } of waiting) {
      if (count >= GATHER_MESSAGES || (count > 0 && bytes + payload.length > GATHER_BYTES)) break;
      bytes += payload.length;
      count += 1;
    }
    waitingBytes -= bytes;
    return waiting.splice(0, count);
  };

  const storeAll = async (): Promise<void> => {
    while (waiting.length > 0) {
      const messages = take();
      if (!(await storeUntilKept(messages))) return;
      for (const message of messages) message.acknowledge();
      for (const tell of onRoom.splice(0)) tell();
    }
  };

  /** False where they are left to the broker. */
  const storeUntilKept = async (messages: readonly Message[]): Promise<boolean> => {
    for (let pauseMs = FIRST_AGAIN_MS; ; pauseMs = Math.min(2 * pauseMs, LONGEST_AGAIN_MS)) {
      try {
        await store(messages);
        return true;
      } catch (error) {
        if (pauseMs === FIRST_AGAIN_MS) onWait(error);
      }
      if (stopping.signal.aborted) return false;
      await sleep(pauseMs, undefined, { signal: stopping.signal }).catch(() => {});
      if (isDropped) return false;
    }
  };

  const begin = (): void => {
    clearTimeout(timer);
    timer = undefined;
    storing ??= storeAll().finally(() => {
      storing = null;
    });
  };

  return {
    async add(message) {
      if (isDropped) return;
      waiting.push(message);
      waitingBytes += message.payload.length;
      if (waiting.length >= GATHER_MESSAGES || waitingBytes >= GATHER_BYTES) begin();
      else timer ??= setTimeout(begin, GATHER_MS);
      if (waiting.length < HELD_MESSAGES && waitingBytes < HELD_BYTES) return;
      await new Promise<void>((settle) => {
        onRoom.push(settle);
      });
    },
    async finish() {
      stopping.abort();
      clearTimeout(timer);
      await storing;
      if (!isDropped) await storeAll();
    },
    drop() {
      isDropped = true;
      stopping.abort();
      clearTimeout(timer);
      waiting = [];
      for (const tell of onRoom.splice(0)) tell();
    },
  };
}
