import { expect, it } from 'vitest';
import { parseSignInSearch } from './sign-in-search.ts';

it('takes an own path and a known reason, and nothing else', () => {
  expect(parseSignInSearch({ to: '/platforms', company: 'closed', more: '1' })).toEqual({
    to: '/platforms',
    company: 'closed',
  });
  expect(parseSignInSearch({ to: '//elsewhere.example', company: 'toString' })).toEqual({});
});
