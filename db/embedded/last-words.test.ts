import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { lastWords } from './last-words.ts';

const folder = mkdtempSync(join(tmpdir(), 'last-words-'));
afterAll(() => rmSync(folder, { recursive: true }));
const logOf = (...lines: string[]) => {
  const file = join(folder, 'log');
  writeFileSync(file, `${lines.join('\n')}\n`);
  return file;
};

it('says why a server did not start, not what a dying one answered to those who knocked', () => {
  const knocked = Array.from({ length: 40 }, () => 'FATAL:  the database system is shutting down');
  expect(
    lastWords(
      logOf(
        '2026-03-04 FATAL:  lock file "postmaster.pid" already exists',
        '2026-03-04 HINT:  Is another postmaster running?',
        ...knocked,
        'LOG:  database system is shut down',
      ),
    ),
  ).toBe('lock file "postmaster.pid" already exists');
});

it('has words where the log has none', () => {
  expect(lastWords(logOf('LOG:  ready'))).toBe('LOG:  ready');
  expect(lastWords(join(folder, 'none'))).toBe('it left no log');
});
