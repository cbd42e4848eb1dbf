import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { SET_UP_GUIDE, writeSetUpTables } from './write-set-up-guide.ts';

it('has the columns of set-up files in the guide as the reader takes them', () => {
  expect(readFileSync(SET_UP_GUIDE, 'utf8')).toContain(writeSetUpTables());
});
