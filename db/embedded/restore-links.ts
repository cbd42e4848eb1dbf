import { existsSync, lstatSync, mkdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

interface Link {
  /** both relative to the package: native/lib/… */
  source: string;
  target: string;
}

/** npm packages cannot hold links, and newer npm clients may skip the install script that makes them. */
export function missingLinks(program: string): Link[] {
  const list = join(program, 'pg-symlinks.json');
  if (!existsSync(list)) return [];
  const links = JSON.parse(readFileSync(list, 'utf8')) as Link[];
  return links.filter((link) => !existsSync(pathIn(program, link.target)));
}

export function restoreLinks(program: string): void {
  for (const link of missingLinks(program)) {
    const target = pathIn(program, link.target);
    mkdirSync(dirname(target), { recursive: true });
    if (isDanglingLink(target)) rmSync(target);
    try {
      symlinkSync(basename(link.source), target);
    } catch (error) {
      // Another process that starts at the same time has made it.
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
  }
}

const pathIn = (program: string, path: string) => join(program, path.replace(/^native\//, ''));

function isDanglingLink(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true;
}
