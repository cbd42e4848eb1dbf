import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const checkout = fileURLToPath(new URL('../../../', import.meta.url));
export const builtScreens = join(checkout, 'web/dist');
/** On the same disk: what is built there is moved, never copied. */
export const buildsFolder = join(checkout, '.cache/screens');
/** Holds the digest of the sources that the screens beside it were built from. */
export const builtFrom = '.built-from';

const SOURCES = ['web', 'server/contract', 'server/cli/screens', 'package-lock.json', 'tsconfig.json'];

/** A digest of everything that the built screens depend on; tests and the build itself left out. */
export async function hashSources(): Promise<string> {
  const hash = createHash('sha256');
  for (const file of (await Promise.all(SOURCES.map(listFiles))).flat().sort()) {
    hash.update(`${relative(checkout, file)}\0`);
    hash.update(await readFile(file));
  }
  return hash.digest('hex');
}

async function listFiles(source: string): Promise<string[]> {
  const path = join(checkout, source);
  if (source.includes('.')) return [path];
  const entries = await readdir(path, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((file) => !file.startsWith(builtScreens) && !/\.test\.tsx?$|\.md$/.test(file));
}
