import { expect, it } from 'vitest';
import { readOwnPath } from './own-path.ts';

it('keeps paths of this server with what is asked for', () => {
  expect(readOwnPath('/vehicles/B-1207?from=100&to=200#x')).toBe('/vehicles/B-1207?from=100&to=200#x');
  expect(readOwnPath('/?q=https://elsewhere.example')).toBe('/?q=https://elsewhere.example');
});

it.each([
  'https://elsewhere.example/',
  '//elsewhere.example/',
  '/\\elsewhere.example/',
  '\\\\elsewhere.example',
  '/\t/elsewhere.example',
  '/.//elsewhere.example',
  'javascript:alert(1)',
  'vehicles/B-1',
  '/sign-in?to=/sign-in',
  '/welcome#token',
  '',
  undefined,
  `/${'x'.repeat(2001)}`,
])('leads to the first screen instead of %j', (text) => {
  expect(readOwnPath(text)).toBe('/');
});
