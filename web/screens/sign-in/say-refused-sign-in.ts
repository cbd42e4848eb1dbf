import { ProblemError } from '#web/api/problem-error.ts';
import { formatWait } from '#web/format/format-wait.ts';

/** Why nobody was signed in, in words; null for what is no refusal of the person. */
export function sayRefusedSignIn(error: unknown): { title: string; next: string } | null {
  if (!(error instanceof ProblemError)) return null;
  if (error.status === 401)
    return {
      title: 'E-mail or password is wrong.',
      next: 'Look for capital letters and blanks. After several wrong tries an account is locked for a while.',
    };
  if (error.status === 429)
    return {
      title: 'Locked for a while after too many tries.',
      next: `Try again in ${error.retryAfterS === null ? 'a few minutes' : formatWait(error.retryAfterS)}, or ask an admin to unlock your account or to give you a new one-time address.`,
    };
  return null;
}
