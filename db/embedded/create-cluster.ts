import { execFile } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { StorageError } from '#db/storage-error.ts';
import type { PostgresProgram } from './find-program.ts';
import { type DataPlace, makePrivateFolder } from './place-data.ts';

export const CLUSTER_USER = 'slipdrift';
export const MINIMAL_ENVIRONMENT = { PATH: '/usr/local/bin:/usr/bin:/bin', LC_ALL: 'C', TZ: 'UTC' };

const ABANDONED_MS = 600_000;

export function clusterExists(cluster: string): boolean {
  return existsSync(join(cluster, 'PG_VERSION'));
}

export function refuseOtherMajor(cluster: string, program: PostgresProgram): void {
  const written = Number.parseInt(readFileSync(join(cluster, 'PG_VERSION'), 'utf8'), 10);
  if (written === program.major) return;
  throw new StorageError(
    `The data in ${cluster} were written by PostgreSQL ${written}, and this Slipdrift brings PostgreSQL ${program.major}. Nothing was changed. Start the Slipdrift that wrote them once more, back up with its slipdrift backup FILE, stop it, move the folder away, and restore with this one: slipdrift restore FILE.`,
  );
}

/** Makes the cluster under another name and renames it when complete, so that a half-made one is never started. */
export async function createCluster(
  programFolder: string,
  place: DataPlace,
  durable: boolean,
): Promise<void> {
  removeAbandoned(place.folder);
  const partial = `${place.cluster}.${randomUUID().slice(0, 8)}.partial`;
  makePrivateFolder(partial, place.account);
  try {
    await promisify(execFile)(
      join(programFolder, 'bin', 'initdb'),
      [
        ...['--pgdata', partial, '--username', CLUSTER_USER, '--encoding', 'UTF8'],
        // Order and case rules that come with PostgreSQL itself: the same on every machine and after every update.
        ...['--locale-provider', 'builtin', '--builtin-locale', 'C.UTF-8', '--locale', 'C'],
        // Nobody else gets as far as a password: no network, and a socket in a folder closed to others.
        ...['--auth', 'trust', '--no-instructions'],
        ...(durable ? [] : ['--no-sync']),
      ],
      { cwd: '/', env: MINIMAL_ENVIRONMENT, ...place.account },
    );
    renameSync(partial, place.cluster);
  } catch (cause) {
    rmSync(partial, { recursive: true, force: true });
    // Two first starts at once: the other's cluster is as good.
    if (clusterExists(place.cluster)) return;
    const said = String((cause as { stderr?: string }).stderr || (cause as Error).message).trim();
    throw new StorageError(`PostgreSQL could not make its storage in ${place.cluster}: ${said}`, { cause });
  }
}

function removeAbandoned(folder: string): void {
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (!name.endsWith('.partial') || Date.now() - statSync(path).mtimeMs < ABANDONED_MS) continue;
    rmSync(path, { recursive: true, force: true });
  }
}
