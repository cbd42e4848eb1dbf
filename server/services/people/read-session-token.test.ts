import { makeSignature } from 'better-auth/crypto';
import { expect, it } from 'vitest';
import { readSessionToken } from './read-session-token.ts';

const secret = 'a secret of this test';
const ways = { name: 'own.session_token', otherNames: ['own.session_data'], secret };
/** As the library does it: were that to change, every request would take the long way. */
const sign = async (token: string, by = secret) =>
  encodeURIComponent(`${token}.${await makeSignature(token, by)}`);

it('reads a token that is signed, wherever among the cookies it stands', async () => {
  expect(readSessionToken(`own.session_token=${await sign('abc')}`, ways)).toBe('abc');
  expect(readSessionToken(`theme=dark; own.session_token=${await sign('a.b')}; x=1`, ways)).toBe('a.b');
});

it('reads none that another secret signed, that was changed, or that is not signed', async () => {
  for (const value of [
    await sign('abc', 'another'),
    (await sign('abc')).replace('abc', 'abd'),
    'abc',
    '',
    '.',
    '%E0%A4%A',
    'a.b',
  ])
    expect(readSessionToken(`own.session_token=${value}`, ways)).toBeNull();
});

it('takes the first of two, as the library does, and no cookie whose name only ends alike', async () => {
  expect(readSessionToken(`own.session_token=x; own.session_token=${await sign('abc')}`, ways)).toBeNull();
  expect(readSessionToken(`not-own.session_token=${await sign('abc')}`, ways)).toBeNull();
});

it('leaves a request to the library that brings a cookie only it reads', async () => {
  expect(readSessionToken(`own.session_token=${await sign('abc')}; own.session_data=1`, ways)).toBeNull();
});
