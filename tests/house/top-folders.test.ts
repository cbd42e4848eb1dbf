import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
/** Made by an install, a start or a tool; not part of the source. */
const NOT_SOURCE = new Set(['node_modules', 'data', 'coverage']);
const LINES_OF_A_PAGE = 60;

const folders = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.') && !NOT_SOURCE.has(entry.name))
  .map((entry) => entry.name);

it('sees the folders of the source', () => {
  expect(folders).toEqual(expect.arrayContaining(['db', 'demo-fleet', 'docs', 'server', 'tests', 'web']));
});

it.each(folders)('%s has a README of under a page', (folder) => {
  const path = join(root, folder, 'README.md');
  expect(existsSync(path)).toBe(true);
  const lines = readFileSync(path, 'utf8').trim().split('\n');
  expect(lines[0]).toMatch(/^# /);
  expect(lines.length).toBeLessThan(LINES_OF_A_PAGE);
});
