import { execFileSync } from 'node:child_process';
import { chmodSync, chownSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import postgres from 'postgres';
import { withDatabase } from '#tests/helpers/with-database.ts';
import type { PlainPostgres } from './plain-postgres.ts';

/** A database on a disk that is soon full, and how to make room. */
export interface SmallDisk {
  url: string;
  makeRoom(): Promise<void>;
  remove(): void;
}

const ROOM_MIB = 18;
/** No whole number of pages: the last write is a short one, as on a disk that has no room for all of it. */
const LARGEST_FILE_KIB = 1700;

/** A memory file system needs root, and not every container lets root mount one. */
export function canMount(): boolean {
  const at = join('/tmp', `slipdrift-test-mount-${process.pid}`);
  try {
    mkdirSync(at);
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', at], { stdio: 'ignore' });
    execFileSync('umount', [at], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  } finally {
    execFileSync('rmdir', [at], { stdio: 'ignore' });
  }
}

/** Tables on a file system of 18 MiB: the system says ENOSPC. The log of transactions is elsewhere. */
export async function mountSmallDisk(database: PlainPostgres): Promise<SmallDisk> {
  const disk = join(database.folder, 'disk');
  const tables = join(disk, 'tables');
  mkdirSync(disk);
  execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${ROOM_MIB}m`, 'tmpfs', disk]);
  chmodSync(disk, 0o755);
  mkdirSync(tables, { mode: 0o700 });
  if (database.account !== null) chownSync(tables, database.account.uid, database.account.gid);
  await database.start();
  await run(database, `create tablespace small location '${tables}'`);
  await run(database, 'create database small tablespace small');
  return {
    url: withDatabase(database.url, 'small'),
    async makeRoom() {
      execFileSync('mount', ['-o', 'remount,size=400m', disk]);
    },
    remove: () => execFileSync('umount', ['-l', disk]),
  };
}

/** For users who may mount nothing: no file of PostgreSQL may pass 1.7 MB. Room is made by a restart without that limit. */
export async function limitFiles(database: PlainPostgres): Promise<SmallDisk> {
  await database.start({ largestFileKib: LARGEST_FILE_KIB });
  await run(database, 'create database small');
  return {
    url: withDatabase(database.url, 'small'),
    async makeRoom() {
      await database.end('fast');
      await database.start();
    },
    remove() {},
  };
}

async function run(database: PlainPostgres, statement: string): Promise<void> {
  const path = new URL(database.url).searchParams.get('host') ?? '';
  const client = postgres({
    path: `${path}/.s.PGSQL.5432`,
    user: 'slipdrift',
    database: 'postgres',
    max: 1,
    onnotice: () => {},
  });
  try {
    await client.unsafe(statement);
  } finally {
    await client.end();
  }
}
