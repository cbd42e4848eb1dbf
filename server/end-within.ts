import { setTimeout as sleep } from 'node:timers/promises';

/**
 * Waits until all of these have ended, for at most `seconds`, and answers whether they have. Each ends by itself, but for
 * what has asked a database that does not answer.
 */
export function endWithin(seconds: number, ending: readonly (Promise<void> | undefined)[]): Promise<boolean> {
  return Promise.race([Promise.all(ending).then(() => true), sleep(seconds * 1000, false, { ref: false })]);
}
