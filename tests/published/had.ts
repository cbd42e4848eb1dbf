import { type Declined, isDeclined } from '#server/engine/declined.ts';

/** The answer itself; a declined one fails the test. */
export function had<T>(answer: T | Declined): T {
  if (isDeclined(answer)) throw new Error(`declined: ${JSON.stringify(answer.declined)}`);
  return answer;
}
