import { ProblemError } from '#web/api/problem-error.ts';

const mostTries = 12;
const longestWaitS = 10;

const pause = (seconds: number, signal: AbortSignal): Promise<void> =>
  new Promise((resolve) => {
    const timer = setTimeout(resolve, seconds * 1000);
    signal.addEventListener('abort', () => {
      clearTimeout(timer);
      resolve();
    });
  });

/**
 * Asks again where the server said when: it is busy, or still at work on what it had of the same file when that was cut
 * off.
 */
export async function askPatiently<T>(
  ask: () => Promise<T>,
  signal: AbortSignal,
  onWait: () => void,
): Promise<T> {
  for (let tries = 1; ; tries++) {
    try {
      return await ask();
    } catch (error) {
      const waitS = error instanceof ProblemError ? error.retryAfterS : null;
      if (waitS === null || waitS > longestWaitS || tries === mostTries || signal.aborted) throw error;
      onWait();
      await pause(Math.max(1, waitS), signal);
      if (signal.aborted) throw error;
    }
  }
}
