import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { DONE, REFUSED } from './check-folder.ts';

export interface SeenFile {
  path: string;
  name: string;
  /** sub-folder that it lies in; null for the top */
  folder: string | null;
  bytes: number;
  modifiedMs: number;
}

/** What is still written, or is not meant for us. */
const UNFINISHED = /^\.|\.(part|tmp)$/i;

/** Files at the top and in its sub-folders, one level deep. Links are neither read nor followed. */
export async function listFiles(root: string): Promise<SeenFile[]> {
  const files: SeenFile[] = [];
  const look = async (folder: string | null): Promise<void> => {
    const path = folder === null ? root : join(root, folder);
    for (const entry of await readdir(path, { withFileTypes: true })) {
      if (UNFINISHED.test(entry.name)) continue;
      if (entry.isDirectory() && folder === null) {
        if (entry.name !== DONE && entry.name !== REFUSED) await look(entry.name);
        continue;
      }
      if (!entry.isFile()) continue;
      const whole = join(path, entry.name);
      const found = await lstat(whole).catch(() => null);
      if (found?.isFile() === true)
        files.push({ path: whole, name: entry.name, folder, bytes: found.size, modifiedMs: found.mtimeMs });
    }
  };
  await look(null);
  return files.sort((a, b) => a.modifiedMs - b.modifiedMs || (a.path < b.path ? -1 : 1));
}
