import { createHash } from 'node:crypto';
import { lstatSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { StorageError } from '#db/storage-error.ts';
import { type DataPlace, makePrivateFolder } from './place-data.ts';

/** The address of a Unix socket has 104 bytes on macOS and 108 on Linux, the closing zero included; a port may have five digits. */
const LONGEST_ADDRESS = 103;
/** Where we look for the socket, whatever port the server has. */
export const SOCKET_NAME = '.s.PGSQL.5432';

/** A folder that only PostgreSQL's account may enter: whoever reaches the socket is let in. */
export function makeSocketFolder(place: DataPlace): string {
  const near = place.socketFolder;
  const fits = Buffer.byteLength(join(near, `${SOCKET_NAME}0`)) <= LONGEST_ADDRESS;
  const hash = createHash('sha256').update(place.folder).digest('hex').slice(0, 12);
  const uid = place.account?.uid ?? process.getuid?.() ?? 0;
  const folder = fits ? near : join(tmpdir(), `slipdrift-${uid}-${hash}`);
  const found = lstatSync(folder, { throwIfNoEntry: false });
  if (found !== undefined && (!found.isDirectory() || found.uid !== uid))
    throw new StorageError(
      `${folder} is needed for PostgreSQL's socket and belongs to someone else. Remove it.`,
    );
  makePrivateFolder(folder, place.account);
  return folder;
}

export const socketUrl = (folder: string, user: string, database: string): string =>
  `postgres://${user}@localhost/${database}?host=${encodeURIComponent(folder)}`;
