import { type Transferable, Worker } from 'node:worker_threads';

interface ThreadOptions<Answer> {
  /** a plain module that loads what the thread runs */
  file: URL;
  /** in words, for errors */
  name: string;
  workerData?: unknown;
  /** heap that it may have, MiB */
  mostHeapMib?: number;
  /** part of it for what is new: the larger, the less often what lives on is copied, MiB */
  youngHeapMib?: number;
  /** whether an answer says that the thread is of no more use */
  isSpent?: (answer: Answer) => boolean;
}

interface TurnOptions<Ask, Answer> {
  /** a request that has ended before its turn is passed over */
  signal: AbortSignal;
  transfer?: readonly Transferable[];
  /** whether an answer is only on the way to the last one */
  isOnTheWay?: (answer: Answer) => boolean;
  /** what is said to the thread when the request ends in its turn */
  dropBy?: Ask;
}

export interface TurnThread<Ask, Answer> {
  /** The last answer; null where the request ended before its turn. */
  run(ask: Ask, options: TurnOptions<Ask, Answer>): Promise<Answer | null>;
  /** how many wait for their turn */
  waiting(): number;
  /** Ends the thread, with what it does. */
  stop(): Promise<void>;
}

interface Turn<Ask, Answer> extends TurnOptions<Ask, Answer> {
  ask: Ask;
  settle: (answer: Answer | null) => void;
  fail: (error: Error) => void;
  drop: () => void;
}

const IDLE_MS = 120_000;

/**
 * A thread that does one thing at a time, in the order they come. It starts with the first, again after one that it died
 * of, and ends by itself when idle: it keeps no process alive.
 */
export function startTurnThread<Ask, Answer>(options: ThreadOptions<Answer>): TurnThread<Ask, Answer> {
  const { file, name, workerData, mostHeapMib, youngHeapMib, isSpent } = options;
  const queue: Turn<Ask, Answer>[] = [];
  let running: Turn<Ask, Answer> | null = null;
  let worker: Worker | null = null;
  let idle: NodeJS.Timeout | undefined;

  const begin = (): Worker => {
    const thread = new Worker(file, {
      workerData,
      resourceLimits: {
        ...(mostHeapMib === undefined ? {} : { maxOldGenerationSizeMb: mostHeapMib }),
        ...(youngHeapMib === undefined ? {} : { maxYoungGenerationSizeMb: youngHeapMib }),
      },
    });
    const lose = (error: Error) => {
      if (worker !== thread) return;
      worker = null;
      end((turn) => turn.fail(error));
    };
    thread.on('message', (answer: Answer) => {
      if (worker !== thread || running?.isOnTheWay?.(answer) === true) return;
      if (isSpent?.(answer) === true) void leave();
      end((turn) => turn.settle(answer));
    });
    thread.on('error', lose);
    thread.on('exit', () => lose(new Error(`The ${name} thread ended before its work did.`)));
    thread.unref();
    return thread;
  };

  function end(tell: (turn: Turn<Ask, Answer>) => void): void {
    const turn = running;
    running = null;
    turn?.signal.removeEventListener('abort', turn.drop);
    if (turn !== null) tell(turn);
    next();
  }

  function next(): void {
    if (running !== null) return;
    clearTimeout(idle);
    const turn = queue.shift();
    if (turn === undefined) {
      if (worker === null) return;
      idle = setTimeout(() => void leave(), IDLE_MS);
      idle.unref();
      return;
    }
    running = turn;
    worker ??= begin();
    worker.postMessage(turn.ask, turn.transfer);
  }

  async function leave(): Promise<void> {
    const thread = worker;
    worker = null;
    await thread?.terminate();
  }

  return {
    run: (ask, how) =>
      new Promise((settle, fail) => {
        const drop = () => {
          if (running === turn) {
            if (how.dropBy !== undefined) worker?.postMessage(how.dropBy);
            return;
          }
          const at = queue.indexOf(turn);
          if (at >= 0) queue.splice(at, 1);
          settle(null);
        };
        const turn: Turn<Ask, Answer> = { ...how, ask, settle, fail, drop };
        if (how.signal.aborted) {
          settle(null);
          return;
        }
        how.signal.addEventListener('abort', drop);
        queue.push(turn);
        next();
      }),
    waiting: () => queue.length,
    stop() {
      const left = leave();
      end((turn) => turn.fail(new Error(`The ${name} thread was stopped before its work was done.`)));
      return left;
    },
  };
}
