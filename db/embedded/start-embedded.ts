import type { ChildProcess } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import postgres from 'postgres';
import { StorageError } from '#db/storage-error.ts';
import { CLUSTER_USER, clusterExists, createCluster, refuseOtherMajor } from './create-cluster.ts';
import { findProgram } from './find-program.ts';
import { lastWords } from './last-words.ts';
import { openForNotebooks } from './notebook-access.ts';
import { type DataPlace, placeData } from './place-data.ts';
import { placeProgram } from './place-program.ts';
import { postmasterPid, spawnPostmaster, stopPostmaster, stopWithParent } from './postmaster.ts';
import { makeSocketFolder, SOCKET_NAME, socketUrl } from './socket-folder.ts';

export const DATABASE = 'slipdrift';
/** Held for as long as this process lives: it tells a server in use from one that a killed process left behind. */
export const OWNER_LOCK = 730_511_503;
const START_S = 60;
/** A server that was just killed is still there for a moment, and its lock with it. */
const DYING_S = 10;
const PORT_TAKEN = /could not create any TCP\/IP sockets/;
const HELD = /lock file ".*" already exists|shared memory block .* still in use/;

export interface EmbeddedServer {
  url: string;
  /** where the data are, which may differ from the folder asked for */
  folder: string;
  moved: boolean;
  /** Settles when the server goes away without having been asked to. */
  lost: Promise<void>;
  stop(): Promise<void>;
}

export interface EmbeddedOptions {
  folder: string;
  /** false lets the machine lose what it has just written; for tests only */
  durable?: boolean;
  /** port of this machine on which the roles of notebooks may connect; none where left out */
  notebookPort?: number | null;
}

/**
 * Starts a PostgreSQL of our own. A server that a killed process left behind is stopped cleanly first; one that a living
 * process uses is left alone, and the start declines.
 */
export async function startEmbedded({
  folder,
  durable = true,
  notebookPort = null,
}: EmbeddedOptions): Promise<EmbeddedServer> {
  const program = findProgram();
  const place = placeData(folder);
  const programFolder = placeProgram(program, place.account, place.spareFolder);
  if (!clusterExists(place.cluster)) await createCluster(programFolder, place, durable);
  refuseOtherMajor(place.cluster, program);
  const socketFolder = makeSocketFolder(place);
  const { owner, dismissWatcher, lost } = await own(place, socketFolder, () => {
    const access = openForNotebooks(place, socketFolder, DATABASE, notebookPort);
    return spawnPostmaster(programFolder, place, socketFolder, durable, access);
  });
  await createDatabase(owner);
  return {
    url: socketUrl(socketFolder, CLUSTER_USER, DATABASE),
    folder: place.folder,
    moved: place.moved,
    lost,
    async stop() {
      await owner.end({ timeout: 1 });
      await stopPostmaster(place.cluster);
      dismissWatcher();
    },
  };
}

interface Owned {
  owner: postgres.Sql;
  dismissWatcher: () => void;
  lost: Promise<void>;
}

async function own(place: DataPlace, socketFolder: string, spawn: () => ChildProcess): Promise<Owned> {
  let child: ChildProcess | null = null;
  let dismissWatcher = () => {};
  const deadline = Date.now() + START_S * 1000;
  const heldDeadline = Date.now() + DYING_S * 1000;
  while (Date.now() < deadline) {
    const owner = await tryToOwn(socketFolder);
    if (owner !== null) {
      const pid = postmasterPid(place.cluster);
      if (child !== null && child.pid === pid && child.exitCode === null) {
        const ended = child;
        const lost = new Promise<void>((settle) => ended.once('exit', () => settle()));
        return { owner, dismissWatcher, lost };
      }
      await owner.end({ timeout: 5 });
      await stopPostmaster(place.cluster);
      continue;
    }
    if (child === null || child.exitCode !== null || child.signalCode !== null) {
      if (child !== null && postmasterPid(place.cluster) === null) {
        const words = lastWords(place.logFile);
        if (PORT_TAKEN.test(words))
          throw new StorageError(
            'Another program listens on the port of SLIPDRIFT_NOTEBOOK_PORT. Name another one, or leave it out.',
          );
        if (!HELD.test(words) || Date.now() > heldDeadline)
          throw new StorageError(`PostgreSQL did not start on ${place.cluster}: ${words}`);
        await sleep(200);
      }
      dismissWatcher();
      if (postmasterPid(place.cluster) === null || child === null) {
        child = spawn();
        child.on('error', () => {});
        if (child.pid !== undefined) dismissWatcher = stopWithParent(child.pid, place);
      }
    }
    await sleep(30);
  }
  throw new StorageError(
    `PostgreSQL on ${place.cluster} did not answer within ${START_S} s: ${lastWords(place.logFile)}`,
  );
}

/** Null while there is no server, or none that lets anyone in yet. Throws where a living process has it. */
async function tryToOwn(socketFolder: string): Promise<postgres.Sql | null> {
  if (!existsSync(join(socketFolder, SOCKET_NAME))) return null;
  const client = postgres({
    path: join(socketFolder, SOCKET_NAME),
    user: CLUSTER_USER,
    database: 'postgres',
    max: 1,
    connect_timeout: 5,
    max_lifetime: null,
    onnotice: () => {},
    connection: { application_name: `slipdrift ${process.pid}` },
  });
  try {
    const [row] = await client`select pg_try_advisory_lock(${OWNER_LOCK}) as mine`;
    if (row?.mine === true) return client;
    const [holder] = await client`
      select application_name as name from pg_locks join pg_stat_activity using (pid)
      where locktype = 'advisory' and objid = ${OWNER_LOCK}`;
    const who = String(holder?.name ?? '').replace('slipdrift ', 'process ');
    throw new StorageError(
      `The storage behind ${socketFolder} is in use by another Slipdrift (${who}). Stop that one, or name another folder in SLIPDRIFT_DATA.`,
    );
  } catch (error) {
    await client.end({ timeout: 0 });
    if (error instanceof StorageError) throw error;
    return null;
  }
}

async function createDatabase(owner: postgres.Sql): Promise<void> {
  const found = await owner`select 1 from pg_database where datname = ${DATABASE}`;
  if (found.length === 0) await owner.unsafe(`create database ${DATABASE}`);
}
