import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { getTableName, isTable } from 'drizzle-orm';
import { expect, it } from 'vitest';
import { tableWords } from './table-words.ts';

it('says of every table, and of no other, what it holds and what ends its rows', async () => {
  const folder = join(import.meta.dirname, '../../../db/schema');
  const modules = await Promise.all((await readdir(folder)).map((name) => import(join(folder, name))));
  const names = modules.flatMap((one: Record<string, unknown>) =>
    Object.values(one).flatMap((value) => (isTable(value) ? [getTableName(value)] : [])),
  );
  expect(names.length).toBeGreaterThan(40);
  expect(Object.keys(tableWords).sort()).toEqual([...new Set(names)].sort());
});
