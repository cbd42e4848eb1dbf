import { existsSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { StorageError } from '#db/storage-error.ts';
import { placeData } from './place-data.ts';
import { postmasterPid } from './postmaster.ts';

/** Removes a data folder, and what lives elsewhere on its behalf. Declines while a server runs on it. */
export function removeStorage(asked: string): void {
  const folder = resolve(asked);
  if (!existsSync(folder)) return;
  const place = placeData(folder);
  const pid = postmasterPid(place.cluster);
  if (pid !== null)
    throw new StorageError(
      `${folder} is in use (PostgreSQL, process ${pid}). Stop it first; nothing was removed.`,
    );
  rmSync(place.folder, { recursive: true, force: true });
  rmSync(folder, { recursive: true, force: true });
}
