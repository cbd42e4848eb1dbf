import { CommandError } from './command-error.ts';

interface Stoppable {
  /** settles when it cannot go on */
  lost: Promise<void>;
  stop(): Promise<void>;
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Starts, waits for a signal to stop, and stops cleanly. A signal during the start is heeded once the start is done;
 * a second one, later, ends the process at once.
 */
export async function runUntilStopped(start: () => Promise<Stoppable>): Promise<void> {
  let askedAtMs: number | null = null;
  let ask = () => {};
  const asked = new Promise<void>((settle) => {
    ask = settle;
  });
  const onSignal = () => {
    // One Ctrl-C in a terminal may arrive twice: from the terminal and passed on by npm.
    if (askedAtMs !== null && Date.now() - askedAtMs > 1000) process.exit(1);
    askedAtMs ??= Date.now();
    ask();
  };
  for (const signal of SIGNALS) process.on(signal, onSignal);
  try {
    const running = await start();
    const lost = await Promise.race([asked.then(() => false), running.lost.then(() => true)]);
    await running.stop();
    if (lost) throw new CommandError('PostgreSQL went away; its log is in the data folder. Start again.');
  } finally {
    for (const signal of SIGNALS) process.off(signal, onSignal);
  }
}
