import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { findLostPaths, pathsIn } from './check-paths.mjs';

const root = mkdtempSync(join(tmpdir(), 'slipdrift-paths-'));
afterAll(() => rmSync(root, { recursive: true }));

it('reads paths in backticks and links, and leaves calls, globs and code blocks alone', () => {
  const text =
    '`db/client.ts` and [there](docs/guide.md#part), `server/`, not `GET /api/ranking`, `/api/x`, `**/*.ts`, `hono`\n```\n`gone.ts`\n```\n[out](https://example.org)';
  expect(pathsIn(text)).toEqual(['docs/guide.md', 'db/client.ts', 'server/']);
});

it('reports what is not there, and finds names from the root and beside the document', () => {
  mkdirSync(join(root, 'part/deep'), { recursive: true });
  writeFileSync(join(root, 'README.md'), '`part/` `part/one.ts` `lost.ts` `data/` `node_modules/x.js`');
  writeFileSync(join(root, 'part/README.md'), '`one.ts` `two.ts` `deep/three.ts` `part/one.ts`');
  writeFileSync(join(root, 'part/one.ts'), '');
  writeFileSync(join(root, 'part/deep/two.ts'), '');
  expect(findLostPaths(root).sort()).toEqual(['README.md: lost.ts', 'part/README.md: deep/three.ts']);
});
