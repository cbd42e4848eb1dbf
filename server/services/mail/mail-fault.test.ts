import { expect, it } from 'vitest';
import { toMailFault } from './mail-fault.ts';

const fault = (fields: object) => toMailFault(Object.assign(new Error('secret words'), fields));

it.each([
  [{ code: 'EAUTH', responseCode: 535, command: 'AUTH PLAIN' }, 'server', /sign in/],
  [{ code: 'EENVELOPE', responseCode: 550, command: 'RCPT TO' }, 'message', /your address/],
  [{ code: 'EENVELOPE', responseCode: 550, command: 'MAIL FROM' }, 'server', /sender/],
  [{ code: 'EMESSAGE', responseCode: 554, command: 'DATA' }, 'message', /refused the message/],
  [{ code: 'ESOCKET', command: 'CONN' }, 'server', /does not answer/],
  [{ code: 'ETLS' }, 'server', /TLS/],
  [{ code: 'EABORT' }, 'stop', /broken off/],
  [{}, 'message', /could not be made/],
] as const)('says whom a failure is about, and nothing of what the library said: %o', (fields, of, words) => {
  const found = fault(fields);
  expect(found.of).toBe(of);
  expect(found.message).toMatch(words);
  expect(JSON.stringify(found) + found.stack).not.toContain('secret words');
});

it('takes anything that was thrown', () => {
  for (const thrown of [null, undefined, 'x', 7]) expect(toMailFault(thrown).of).toBe('message');
});
