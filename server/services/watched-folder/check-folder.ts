import { mkdir, realpath, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { SettingsError } from '#server/settings.ts';

export const DONE = 'done';
export const REFUSED = 'refused';

/** The folder without links in its path, once it is sure that files can be moved in it. */
export async function checkFolder(folder: string): Promise<string> {
  const wrong = (what: string) => new SettingsError(`SLIPDRIFT_WATCH_FOLDER is ${folder}, ${what}.`);
  const found = await stat(folder).catch(() => null);
  if (found === null) throw wrong('which does not exist');
  if (!found.isDirectory()) throw wrong('which is no folder');
  try {
    const real = await realpath(folder);
    for (const name of [DONE, REFUSED]) {
      await mkdir(join(real, name), { recursive: true });
      const trial = join(real, name, '.slipdrift-trial');
      await writeFile(trial, '');
      await rm(trial);
    }
    return real;
  } catch (error) {
    throw wrong(`in which nothing can be written (${(error as NodeJS.ErrnoException).code})`);
  }
}
