import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import postgres from 'postgres';
import { CLUSTER_USER, clusterExists } from './create-cluster.ts';
import { placeData } from './place-data.ts';
import { postmasterPid } from './postmaster.ts';
import { makeSocketFolder, socketUrl } from './socket-folder.ts';
import { DATABASE, OWNER_LOCK } from './start-embedded.ts';

/** Whether a data folder has storage in it, or says where it is. */
export function embeddedExists(folder: string): boolean {
  return existsSync(resolve(folder)) && clusterExists(placeData(folder).cluster);
}

/** The address of our own server where a Slipdrift runs it; null where none does, and the server may be started. */
export async function attachEmbedded(folder: string): Promise<string | null> {
  if (!embeddedExists(folder)) return null;
  const place = placeData(folder);
  if (postmasterPid(place.cluster) === null) return null;
  const socketFolder = makeSocketFolder(place);
  if (!existsSync(join(socketFolder, '.s.PGSQL.5432'))) return null;
  const client = postgres(socketUrlParts(socketFolder));
  try {
    const owners = await client`
      select 1 from pg_locks where locktype = 'advisory' and objid = ${OWNER_LOCK} and granted`;
    return owners.length === 0 ? null : socketUrl(socketFolder, CLUSTER_USER, DATABASE);
  } catch {
    // It is starting or stopping: whoever starts one finds out.
    return null;
  } finally {
    await client.end({ timeout: 0 });
  }
}

const socketUrlParts = (socketFolder: string) => ({
  path: join(socketFolder, '.s.PGSQL.5432'),
  user: CLUSTER_USER,
  database: 'postgres',
  max: 1,
  connect_timeout: 5,
  onnotice: () => {},
});
