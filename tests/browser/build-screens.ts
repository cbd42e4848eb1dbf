import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { promisify } from 'node:util';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

const root = join(import.meta.dirname, '../..');
const vite = join(dirname(createRequire(import.meta.url).resolve('vite/package.json')), 'bin/vite.js');
let folder: Promise<string> | undefined;

/** The screens as they are delivered, built once for a run by the first test file that asks. */
export function buildScreens(): Promise<string> {
  folder ??= buildOnce(join(process.env.SLIPDRIFT_TEST_FOLDER ?? makeTemporaryFolder(), 'screens'));
  return folder;
}

async function buildOnce(outDir: string): Promise<string> {
  const isBuilt = `${outDir}.built`;
  const isBroken = `${outDir}.broken`;
  if (takeTurn(`${outDir}.begun`)) {
    await build(outDir).catch((error) => {
      writeFileSync(isBroken, '');
      throw error;
    });
    writeFileSync(isBuilt, '');
  }
  while (!existsSync(isBuilt)) {
    if (existsSync(isBroken)) throw new Error('The screens could not be built: another test file says why.');
    await wait(100);
  }
  return outDir;
}

/** Whether we are the first: of all that make a folder only one can. */
function takeTurn(path: string): boolean {
  try {
    mkdirSync(path);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

async function build(outDir: string): Promise<void> {
  const options = ['build', '--config', 'web/vite.config.ts', '--outDir', outDir, '--logLevel', 'error'];
  // A test runner's own NODE_ENV would make it a development build, of twice the size.
  const env = { ...process.env, NODE_ENV: 'production' };
  await promisify(execFile)(process.execPath, [vite, ...options], { cwd: root, env });
}
