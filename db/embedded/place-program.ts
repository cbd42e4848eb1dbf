import { randomUUID } from 'node:crypto';
import { accessSync, chmodSync, constants, cpSync, existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { type Account, canEnter } from './choose-account.ts';
import type { PostgresProgram } from './find-program.ts';
import { missingLinks, restoreLinks } from './restore-links.ts';

/**
 * Answers a folder from which the account can run PostgreSQL: the installed one, its links put back, or a copy in
 * `spare` where the account cannot enter the installed one or its links cannot be put back.
 */
export function placeProgram(program: PostgresProgram, account: Account | null, spare: string): string {
  const { folder } = program;
  if (missingLinks(folder).length > 0 && isWritable(join(folder, 'lib'))) restoreLinks(folder);
  if (missingLinks(folder).length === 0 && canEnter(join(folder, 'bin'), account)) return folder;
  const copy = join(spare, `postgresql-${program.version}-${process.platform}-${process.arch}`);
  if (!existsSync(copy)) copyProgram(folder, copy);
  return copy;
}

/** Copies under another name first: a copy that has its name is complete, whoever was killed meanwhile. */
function copyProgram(folder: string, copy: string): void {
  const partial = `${copy}.${randomUUID().slice(0, 8)}.partial`;
  mkdirSync(partial, { recursive: true, mode: 0o755 });
  try {
    cpSync(folder, partial, {
      recursive: true,
      verbatimSymlinks: true,
      filter: (source) => !source.endsWith('.a'),
    });
    // The copy has the modes of the installed folders, which may be closed to writing.
    chmodSync(join(partial, 'lib'), 0o755);
    restoreLinks(partial);
    renameSync(partial, copy);
  } catch (error) {
    rmSync(partial, { recursive: true, force: true });
    if (!existsSync(copy)) throw error;
  }
}

function isWritable(folder: string): boolean {
  try {
    accessSync(folder, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}
