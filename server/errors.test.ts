import { expect, it } from 'vitest';
import { problem } from './contract/problems.ts';
import { problemCodes } from './contract/words.ts';
import { SlipdriftError, toProblem, toSlipdriftError } from './errors.ts';

it('renders every code as a problem document of the contract', () => {
  for (const code of problemCodes) {
    const document = problem.parse(toProblem(new SlipdriftError(code, 'Said.'), 'r-1'));
    expect(document).toMatchObject({ code, detail: 'Said.', request: 'r-1', errors: [] });
    expect(document.status).toBeGreaterThanOrEqual(400);
  }
});

it('shows nothing of the inside of an error that nobody foresaw', () => {
  const error = toSlipdriftError(new TypeError('secret of /home/me'));
  expect(error.code).toBe('internal');
  expect(JSON.stringify(toProblem(error, 'r-1'))).not.toContain('secret');
  expect(error.cause).toBeInstanceOf(TypeError);
});

it.each([
  [{ code: '53100' }, 'storage_full'],
  [{ code: 'ENOSPC' }, 'storage_full'],
  [{ code: 'XX000', routine: 'mdzeroextend' }, 'storage_full'],
  [{ code: 'XX000', routine: 'elog' }, 'internal'],
  [{ code: '57P01' }, 'storage_unavailable'],
  [{ code: 'CONNECTION_CLOSED' }, 'storage_unavailable'],
  [{ code: 'ECONNREFUSED', syscall: 'connect' }, 'storage_unavailable'],
  [{ code: 'EPIPE', syscall: 'write' }, 'storage_unavailable'],
  [{ code: 'ENOENT', syscall: 'open' }, 'internal'],
  [{ code: '25006' }, 'storage_unavailable'],
  [{ code: '40P01' }, 'busy'],
  [{ code: '23505' }, 'internal'],
])('tells storage trouble by its code, however deep: %o', (fields, code) => {
  const inner = Object.assign(new Error('inner'), fields);
  expect(toSlipdriftError(new Error('outer', { cause: inner })).code).toBe(code);
});
