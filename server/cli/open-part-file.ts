import { existsSync } from 'node:fs';
import { open, rename, rm, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { Writable } from 'node:stream';
import { CommandError } from './command-error.ts';

export interface PartFile {
  out: Writable;
  /** gives the file its name, once all of it is on the disk, and answers its size */
  keep(): Promise<number>;
  discard(): Promise<void>;
}

/** For its owner alone: what is written holds the fleet, and of a backup password hashes too. */
const MODE = 0o600;

/** Writes beside FILE and renames at the end: what has the name is whole. */
export async function openPartFile(path: string, force: boolean): Promise<PartFile> {
  const part = `${path}.part`;
  const refuseExisting = () => {
    if (!force && existsSync(path))
      throw new CommandError(
        `${path} exists. Nothing was changed; name another file, or overwrite it with --force.`,
      );
  };
  refuseExisting();
  if (force) await rm(part, { force: true });
  const file = await open(part, 'wx', MODE).catch((error: unknown) => {
    throw explainWriting(error, part);
  });
  const out = file.createWriteStream({ highWaterMark: 1_048_576, flush: true });
  const closed = new Promise<void>((settle) => out.once('close', settle));
  return {
    out,
    async keep() {
      await closed;
      refuseExisting();
      await rename(part, path);
      await syncFolder(dirname(path));
      return (await stat(path)).size;
    },
    async discard() {
      out.destroy();
      await closed;
      await rm(part, { force: true });
    },
  };
}

/** The new name, too, must outlive a power cut; where a folder cannot be synced, the system sees to it in its own time. */
async function syncFolder(folder: string): Promise<void> {
  const opened = await open(folder, 'r').catch(() => null);
  await opened?.sync().catch(() => {});
  await opened?.close();
}

export function explainWriting(error: unknown, path: string): unknown {
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'EEXIST')
    return new CommandError(
      `${path} exists: somebody else is writing it, or was killed. Wait for it, or overwrite with --force.`,
    );
  if (code === 'ENOENT') return new CommandError(`The folder of ${path} does not exist.`);
  if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS')
    return new CommandError(`This user may not write ${path} (${code}).`);
  if (code === 'ENOSPC' || code === 'EDQUOT')
    return new CommandError(
      `The disk is full. Nothing was kept of ${path}; make room, or name another place.`,
    );
  return error;
}
