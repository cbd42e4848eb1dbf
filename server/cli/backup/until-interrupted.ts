import { CommandError } from '#server/cli/command-error.ts';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Runs `work`; Ctrl-C and the like end it early and cleanly, with `sentence` to say what that means. */
export async function untilInterrupted<T>(
  sentence: string,
  work: (signal: AbortSignal) => Promise<T>,
): Promise<T> {
  const abort = new AbortController();
  const onSignal = () => abort.abort();
  for (const signal of SIGNALS) process.on(signal, onSignal);
  try {
    return await work(abort.signal);
  } catch (error) {
    throw abort.signal.aborted ? new CommandError(sentence, { cause: error }) : error;
  } finally {
    for (const signal of SIGNALS) process.off(signal, onSignal);
  }
}
