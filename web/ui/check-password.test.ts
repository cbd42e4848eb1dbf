import { expect, it } from 'vitest';
import { oneTimeUse } from '#server/contract/people.ts';
import { checkPassword } from './check-password.ts';

it('counts what is there, and asks for nothing but length', () => {
  expect(checkPassword('')).toMatch(/at least 12 characters/);
  expect(checkPassword('a')).toBe('It has 1 character; at least 12 are needed.');
  expect(checkPassword('eleven char')).toBe('It has 11 characters; at least 12 are needed.');
  expect(checkPassword('all in small letters')).toBeUndefined();
});

it.each(['eleven char', 'twelve chars'])('agrees with the contract about %j', (password) => {
  const taken = oneTimeUse.safeParse({ token: 'x'.repeat(20), password }).success;
  expect(checkPassword(password) === undefined).toBe(taken);
});
