import { CommandError } from './command-error.ts';

interface Stoppable {
  /** settles when it cannot go on */
  lost: Promise<void>;
  stop(): Promise<void>;
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
/** One Ctrl-C in a terminal may arrive twice: from the terminal, and passed on by npm. */
const SAME_SIGNAL_MS = 1000;
const LEFT_OVER_MS = 500;

type Outcome = 'asked' | 'lost';

/**
 * Starts, does `work` if there is any, waits for a signal to stop, and stops cleanly. A signal during the start is heeded
 * once the start is done, one during the work aborts it; a second one, later, ends the process at once.
 */
export async function runUntilStopped<T extends Stoppable>(
  start: () => Promise<T>,
  work: (running: T, signal: AbortSignal) => Promise<void> = async () => {},
): Promise<void> {
  const abort = new AbortController();
  let askedAtMs: number | null = null;
  const asked = new Promise<Outcome>((settle) => {
    abort.signal.addEventListener('abort', () => settle('asked'));
  });
  const onSignal = () => {
    if (askedAtMs !== null && Date.now() - askedAtMs > SAME_SIGNAL_MS) process.exit(1);
    askedAtMs ??= Date.now();
    abort.abort();
  };
  for (const signal of SIGNALS) process.on(signal, onSignal);
  try {
    const running = await start();
    const lost = running.lost.then((): Outcome => 'lost');
    const failed = new Promise<never>((_, fail) => {
      work(running, abort.signal).catch(fail);
    });
    try {
      const outcome = await Promise.race([asked, lost, failed]);
      if (outcome === 'lost')
        throw new CommandError('PostgreSQL went away; its log is in the data folder. Start again.');
    } finally {
      failed.catch(() => {});
      abort.abort();
      await running.stop();
      // What still hangs, such as a database that does not even hang up, must not keep the process.
      setTimeout(() => process.exit(), LEFT_OVER_MS).unref();
    }
  } finally {
    for (const signal of SIGNALS) process.off(signal, onSignal);
  }
}
