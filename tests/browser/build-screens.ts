import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';

const root = join(import.meta.dirname, '../..');
const vite = join(dirname(createRequire(import.meta.url).resolve('vite/package.json')), 'bin/vite.js');
let folder: Promise<string> | undefined;

/** Builds the screens as they are delivered, once for a test file, into a folder that no other test shares. */
export function buildScreens(): Promise<string> {
  folder ??= build();
  return folder;
}

async function build(): Promise<string> {
  const outDir = mkdtempSync(join(tmpdir(), 'slipdrift-screens-'));
  process.once('exit', () => rmSync(outDir, { recursive: true, force: true }));
  const options = [
    'build',
    '--config',
    'web/vite.config.ts',
    '--outDir',
    outDir,
    '--emptyOutDir',
    '--logLevel',
    'error',
  ];
  // A test runner's own NODE_ENV would make it a development build, of twice the size.
  const env = { ...process.env, NODE_ENV: 'production' };
  await promisify(execFile)(process.execPath, [vite, ...options], { cwd: root, env });
  return outDir;
}
