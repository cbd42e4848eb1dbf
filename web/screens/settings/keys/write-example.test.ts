import { expect, it } from 'vitest';
import { writeExample } from './write-example.ts';

it.each(['deliver', 'write'] as const)('asks with a key to %s whose it is, and stores nothing', (right) => {
  expect(writeExample(right, 'http://slipdrift.test')).toBe(
    `curl -H "Authorization: Bearer $KEY" 'http://slipdrift.test/api/session'`,
  );
});

it('asks with a key to read for the list', () => {
  expect(writeExample('read', 'http://slipdrift.test')).toBe(
    `curl -H "Authorization: Bearer $KEY" 'http://slipdrift.test/api/ranking?limit=5'`,
  );
});
