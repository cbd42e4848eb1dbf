import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import {
  closeSync,
  existsSync,
  openSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { StorageError } from '#db/storage-error.ts';
import { MINIMAL_ENVIRONMENT } from './create-cluster.ts';
import type { DataPlace } from './place-data.ts';

const LONGEST_LOG_BYTES = 5_000_000;
const STOP_S = 60;
/** Writing everything out may take longer; what is not written is in the log, and is read from there at the next start. */
const ORDERLY_MS = 3000;

/** Starts PostgreSQL on the cluster; `access` says who may connect and where. It has its own process group: Ctrl-C is for us, and we stop it last. */
export function spawnPostmaster(
  programFolder: string,
  place: DataPlace,
  socketFolder: string,
  durable: boolean,
  access: Record<string, string>,
): ChildProcess {
  forgetStaleLocks(place.cluster, socketFolder);
  if ((statSync(place.logFile, { throwIfNoEntry: false })?.size ?? 0) > LONGEST_LOG_BYTES)
    renameSync(place.logFile, `${place.logFile}.1`);
  const log = openSync(place.logFile, 'a', 0o600);
  const settings = {
    ...access,
    unix_socket_directories: socketFolder,
    unix_socket_permissions: '0700',
    max_connections: '60',
    shared_buffers: '192MB',
    max_wal_size: '2GB',
    checkpoint_timeout: '15min',
    // Containers give little shared memory, and our queries are short.
    max_parallel_workers_per_gather: '0',
    jit: 'off',
    log_checkpoints: 'off',
    // Statements hold readings; the message alone is enough.
    log_min_error_statement: 'panic',
    ...(durable ? {} : { fsync: 'off', synchronous_commit: 'off', full_page_writes: 'off' }),
  };
  const child = spawn(
    join(programFolder, 'bin', 'postgres'),
    ['-D', place.cluster, ...Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`])],
    { cwd: '/', detached: true, stdio: ['ignore', log, log], env: MINIMAL_ENVIRONMENT, ...place.account },
  );
  closeSync(log);
  return child;
}

/**
 * Stops PostgreSQL when this process dies without doing so itself: a shell waits for the end of a pipe that only we
 * hold open. Answers how to dismiss it.
 */
export function stopWithParent(pid: number, place: DataPlace): () => void {
  const script = 'cat >/dev/null; [ "$(head -n 1 "$2")" = "$1" ] && kill -INT "$1"';
  const watcher = spawn('/bin/sh', ['-c', script, 'sh', String(pid), join(place.cluster, 'postmaster.pid')], {
    cwd: '/',
    detached: true,
    stdio: ['pipe', 'ignore', 'ignore'],
    env: MINIMAL_ENVIRONMENT,
    ...place.account,
  });
  watcher.on('error', () => {});
  watcher.unref();
  return () => {
    watcher.kill('SIGKILL');
  };
}

/** The process that holds the cluster, if it lives. */
export function postmasterPid(cluster: string): number | null {
  const pid = lockHolder(join(cluster, 'postmaster.pid'));
  return pid !== null && isAlive(pid) ? pid : null;
}

/**
 * Ends sessions, writes everything out, and answers when the process is gone. Where writing takes too long it leaves off:
 * the next start takes longer then, and nothing is lost.
 */
export async function stopPostmaster(cluster: string): Promise<void> {
  const pid = postmasterPid(cluster);
  if (pid === null || !isPostgres(pid, cluster)) return;
  process.kill(pid, 'SIGINT');
  for (let waited = 0; waited < STOP_S * 1000; waited += 25) {
    if (waited === ORDERLY_MS) signal(pid, 'SIGQUIT');
    if (!existsSync(join(cluster, 'postmaster.pid')) || !isAlive(pid)) return;
    await sleep(25);
  }
  throw new StorageError(`PostgreSQL (process ${pid}) on ${cluster} did not stop within ${STOP_S} s.`);
}

function signal(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name);
  } catch {
    // It is gone by now.
  }
}

/**
 * After a crash the number in a lock file may by now belong to some other program, or to a killed PostgreSQL that nobody
 * has buried, and PostgreSQL would take either for itself and refuse to start. The cluster's own lock leads it to the
 * shared memory of a killed one: it stays while a process is left that may still write.
 */
function forgetStaleLocks(cluster: string, socketFolder: string): void {
  const isOurs = (pid: number) => isAlive(pid) && isPostgres(pid, cluster);
  const clusterLock = join(cluster, 'postmaster.pid');
  const holder = lockHolder(clusterLock);
  const isFree = (pid: number) => isAlive(pid) || (isZombie(pid) && !hasProcesses(cluster));
  if (holder !== null && !isOurs(holder) && isFree(holder)) rmSync(clusterLock, { force: true });
  for (const name of readdirSync(socketFolder).filter((one) => one.endsWith('.lock'))) {
    const socketLock = join(socketFolder, name);
    const listener = lockHolder(socketLock);
    if (listener !== null && !isOurs(listener)) rmSync(socketLock, { force: true });
  }
}

/** Whether any process works in the cluster's folder, as all of PostgreSQL's do; where that cannot be told, yes. */
function hasProcesses(cluster: string): boolean {
  try {
    const folder = realpathSync(cluster);
    return readdirSync('/proc').some((name) => /^\d+$/.test(name) && folderOf(Number(name)) === folder);
  } catch {
    return true;
  }
}

/** Where a process works; null where that cannot be told, as outside Linux. */
function folderOf(pid: number): string | null {
  try {
    return readlinkSync(`/proc/${pid}/cwd`);
  } catch {
    return null;
  }
}

function lockHolder(file: string): number | null {
  try {
    const pid = Number.parseInt(readFileSync(file, 'utf8'), 10);
    return Number.isInteger(pid) && pid > 0 ? pid : null;
  } catch {
    return null;
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return !isZombie(pid);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/** Dead, but nobody has asked how it ended: so it stays where process 1 of a container does not look after orphans. */
function isZombie(pid: number): boolean {
  try {
    return /^\d+ \(.*\) Z/s.test(readFileSync(`/proc/${pid}/stat`, 'utf8'));
  } catch {
    return false;
  }
}

function isPostgres(pid: number, cluster: string): boolean {
  const folder = folderOf(pid);
  if (folder !== null) return folder === realpathSync(cluster);
  try {
    const command = execFileSync('ps', ['-o', 'command=', '-p', String(pid)], { encoding: 'utf8' });
    return command.includes('postgres');
  } catch {
    // Not to be told: leave it to PostgreSQL's own check.
    return true;
  }
}
