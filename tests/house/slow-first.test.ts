import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { slowFiles } from '#tests/helpers/slow-first.ts';

it('begins with files that exist', () => {
  const root = join(import.meta.dirname, '../..');
  expect(slowFiles.filter((file) => !existsSync(join(root, file)))).toEqual([]);
});
