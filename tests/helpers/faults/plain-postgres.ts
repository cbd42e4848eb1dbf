import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { chmodSync, chownSync, mkdirSync, openSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { promisify } from 'node:util';
import postgres from 'postgres';
import { type Account, chooseAccount } from '#db/embedded/choose-account.ts';
import { CLUSTER_USER, MINIMAL_ENVIRONMENT } from '#db/embedded/create-cluster.ts';
import { findProgram } from '#db/embedded/find-program.ts';
import { placeProgram } from '#db/embedded/place-program.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

/** A PostgreSQL that is none of Slipdrift's: it stands for the server behind DATABASE_URL, and a test may do it harm. */
export interface PlainPostgres {
  url: string;
  folder: string;
  account: Account | null;
  start(options?: StartServer): Promise<void>;
  /** `killed`: SIGKILL to the postmaster; `immediate`: as after a power cut; `fast`: orderly */
  end(how: 'killed' | 'immediate' | 'fast'): Promise<void>;
  /** processes that serve a session of Slipdrift's */
  backends(): Promise<number[]>;
  remove(): Promise<void>;
}

interface StartServer {
  /** no file may be larger, in KiB; the log of transactions is kept in files of 1 MiB */
  largestFileKib?: number;
  settings?: Record<string, string>;
}

const SIGNALS = { killed: 'SIGKILL', immediate: 'SIGQUIT', fast: 'SIGINT' } as const;

export async function createPlainPostgres(): Promise<PlainPostgres> {
  const folder = makeTemporaryFolder();
  const cluster = join(folder, 'cluster');
  const socket = join(folder, 'socket');
  const account = chooseAccount(cluster);
  const program = placeProgram(findProgram(), account, account === null ? folder : '/var/lib/slipdrift');
  for (const path of [cluster, socket]) {
    mkdirSync(path, { mode: 0o700 });
    if (account !== null) chownSync(path, account.uid, account.gid);
  }
  const run = { cwd: '/', env: MINIMAL_ENVIRONMENT, ...account };
  await promisify(execFile)(
    join(program, 'bin/initdb'),
    [
      '-D',
      cluster,
      '-U',
      CLUSTER_USER,
      '--auth',
      'trust',
      '--no-sync',
      '--wal-segsize',
      '1',
      '--locale',
      'C',
    ],
    run,
  );
  chmodSync(socket, 0o755);
  const url = `postgres://${CLUSTER_USER}@localhost/postgres?host=${encodeURIComponent(socket)}`;
  const connect = () =>
    postgres({ path: join(socket, '.s.PGSQL.5432'), user: CLUSTER_USER, database: 'postgres', max: 1 });
  let server: ChildProcess | null = null;
  const children = new Set<ChildProcess>();
  process.once('exit', () => {
    for (const child of children) child.kill('SIGKILL');
  });

  async function start({ largestFileKib, settings = {} }: StartServer = {}): Promise<void> {
    const log = openSync(join(folder, 'log'), 'a');
    const all = { listen_addresses: '', unix_socket_directories: socket, max_connections: '40', ...settings };
    const words = [
      join(program, 'bin/postgres'),
      ...['-D', cluster],
      ...Object.entries(all).flatMap(([name, value]) => ['-c', `${name}=${value}`]),
    ];
    // dash and bash count in blocks of 512 and of 1024 bytes: bash is asked for by name.
    const limit = largestFileKib === undefined ? '' : `ulimit -f ${largestFileKib}; `;
    const begin = () => {
      const child = spawn('bash', ['-c', `${limit}exec "$@"`, 'bash', ...words], {
        ...run,
        stdio: ['ignore', log, log],
      });
      children.add(child);
      return child;
    };
    let child = begin();
    for (let waitedMs = 0; waitedMs < 30_000; waitedMs += 50) {
      // A postmaster that was killed leaves its children for a moment, and none can start beside them.
      if (child.exitCode !== null) child = begin();
      server = child;
      const client = connect();
      const ready = await client`select 1`.then(
        () => true,
        () => false,
      );
      await client.end({ timeout: 0 });
      if (ready) return;
      await sleep(50);
    }
    throw new Error(`PostgreSQL did not start: ${readFileSync(join(folder, 'log'), 'utf8').slice(-1500)}`);
  }

  async function end(how: keyof typeof SIGNALS): Promise<void> {
    if (server === null || server.exitCode !== null || server.signalCode !== null) return;
    const child = server;
    const gone = new Promise((settle) => child.once('exit', settle));
    child.kill(SIGNALS[how]);
    await gone;
  }

  return {
    url,
    folder,
    account,
    start,
    end,
    async backends() {
      const client = connect();
      const rows = await client`select pid from pg_stat_activity where application_name = 'slipdrift'`;
      await client.end({ timeout: 1 });
      return rows.map(({ pid }) => Number(pid));
    },
    async remove() {
      await end('immediate');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
