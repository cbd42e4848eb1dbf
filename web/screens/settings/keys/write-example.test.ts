import { expect, it } from 'vitest';
import { readingInput } from '#server/contract/readings.ts';
import { writeExample } from './write-example.ts';

it.each(['deliver', 'write'] as const)(
  'sends with a key to %s a reading that the contract takes',
  (right) => {
    const line = writeExample(right, 'http://slipdrift.test');
    const body: unknown = JSON.parse(/-d '(.*)' /.exec(line)?.[1] ?? '');
    expect(Array.isArray(body) && readingInput.safeParse(body[0]).success).toBe(true);
    expect(line).toMatch(/Bearer \$KEY" .* http:\/\/slipdrift\.test\/api\/readings$/);
  },
);

it('asks with a key to read for the list', () => {
  expect(writeExample('read', 'http://slipdrift.test')).toBe(
    `curl -H "Authorization: Bearer $KEY" 'http://slipdrift.test/api/ranking?limit=5'`,
  );
});
