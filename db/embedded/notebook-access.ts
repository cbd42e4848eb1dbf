import { chownSync, lstatSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { READER_PREFIX } from '#db/notebook/readers.ts';
import type { DataPlace } from './place-data.ts';
import { SOCKET_NAME } from './socket-folder.ts';

/**
 * Who may connect: whoever reaches the socket, as ever; over the network this machine alone, the roles of notebooks
 * alone, by password. All else is declined, our own user too.
 */
const rules = (database: string) => `# Written by Slipdrift at each start.
local all all trust
host ${database} "/^${READER_PREFIX}" 127.0.0.1/32 scram-sha-256
`;

/**
 * Settings of a server that listens on a port of this machine for notebooks. PostgreSQL calls its socket after the port:
 * a link keeps the name under which we look for it.
 */
export function openForNotebooks(
  place: DataPlace,
  socketFolder: string,
  database: string,
  port: number | null,
): Record<string, string> {
  const link = join(socketFolder, SOCKET_NAME);
  if (lstatSync(link, { throwIfNoEntry: false })?.isSymbolicLink()) rmSync(link);
  if (port === null) return { listen_addresses: '' };
  const file = join(place.cluster, 'notebook_hba.conf');
  writeFileSync(file, rules(database), { mode: 0o600 });
  if (place.account !== null) chownSync(file, place.account.uid, place.account.gid);
  if (ownName(port) !== SOCKET_NAME) {
    rmSync(link, { force: true });
    symlinkSync(ownName(port), link);
  }
  return { listen_addresses: '127.0.0.1', port: String(port), hba_file: file };
}

const ownName = (port: number): string => `.s.PGSQL.${port}`;
