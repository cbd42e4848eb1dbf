import { expect, it } from 'vitest';
import { ProblemError } from '#web/api/problem-error.ts';
import { sayRefusedSignIn } from './say-refused-sign-in.ts';

const refusal = (status: number, retryAfterS: number | null = null) =>
  new ProblemError({ title: 'T', detail: 'D', code: 'internal', status, retryAfterS });

it('tells wrong from locked, and leaves other faults to the server', () => {
  expect(sayRefusedSignIn(refusal(401))?.title).toBe('E-mail or password is wrong.');
  expect(sayRefusedSignIn(refusal(429, 840))?.next).toMatch(/^Try again in 14 minutes, or ask an admin/);
  expect(sayRefusedSignIn(refusal(429))?.next).toMatch(/^Try again in a few minutes/);
  expect(sayRefusedSignIn(refusal(500))).toBeNull();
  expect(sayRefusedSignIn(new Error('no'))).toBeNull();
});
