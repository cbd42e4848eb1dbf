import { randomUUID } from 'node:crypto';
import { chmodSync, chownSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { StorageError } from '#db/storage-error.ts';
import { type Account, canEnter, chooseAccount } from './choose-account.ts';

/** For what root's PostgreSQL account cannot reach elsewhere. */
const SYSTEM_FOLDER = '/var/lib/slipdrift';
const POINTER = 'MOVED-TO';

export interface DataPlace {
  /** the folder that holds everything; the one asked for unless the account cannot enter it */
  folder: string;
  cluster: string;
  socketFolder: string;
  logFile: string;
  /** for a copy of the program, if one is needed */
  spareFolder: string;
  account: Account | null;
  moved: boolean;
}

/**
 * Decides where the data live. Under a home that only root may enter, PostgreSQL's account cannot reach the folder
 * asked for; the data then live in a folder of their own below /var/lib/slipdrift, and a note in the folder asked for
 * names it, so that the next start finds them.
 */
export function placeData(asked: string): DataPlace {
  const home = resolve(asked);
  makeFolder(home);
  const pointer = join(home, POINTER);
  if (existsSync(pointer)) return describe(readPointer(pointer), true);
  const here = describe(home, false);
  if (here.account === null || canEnter(home, here.account)) return here;
  makeFolder(SYSTEM_FOLDER);
  const elsewhere = join(SYSTEM_FOLDER, `${basename(home)}-${randomUUID().slice(0, 8)}`);
  makeFolder(elsewhere);
  if (!canEnter(elsewhere, here.account))
    throw new StorageError(
      `PostgreSQL runs as user ${here.account.uid}, who can enter neither ${home} nor ${SYSTEM_FOLDER}. Name a folder that this user can enter in SLIPDRIFT_DATA.`,
    );
  try {
    // Two starts at once: the first note counts, and the other's folder stays empty.
    writeFileSync(pointer, `${elsewhere}\n`, { flag: 'wx' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
  return describe(readPointer(pointer), true);
}

/** Gives PostgreSQL's account the folders that it alone may enter. */
export function makePrivateFolder(folder: string, account: Account | null): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  chmodSync(folder, 0o700);
  if (account !== null) chownSync(folder, account.uid, account.gid);
}

function describe(folder: string, moved: boolean): DataPlace {
  const cluster = join(folder, 'postgres');
  const account = chooseAccount(cluster);
  return {
    folder,
    cluster,
    socketFolder: join(folder, 'socket'),
    logFile: join(folder, 'postgres.log'),
    spareFolder: process.getuid?.() === 0 ? SYSTEM_FOLDER : folder,
    account,
    moved,
  };
}

function readPointer(pointer: string): string {
  const folder = readFileSync(pointer, 'utf8').trim();
  if (!existsSync(folder))
    throw new StorageError(
      `${pointer} says that the data are in ${folder}, which does not exist. Put it back, or remove the note to start with empty storage.`,
    );
  return folder;
}

function makeFolder(folder: string): void {
  try {
    // Whatever the umask: PostgreSQL's account may be another than ours.
    if (mkdirSync(folder, { recursive: true }) !== undefined) chmodSync(folder, 0o755);
  } catch (cause) {
    const code = (cause as NodeJS.ErrnoException).code ?? 'unknown error';
    throw new StorageError(
      `The data folder ${folder} cannot be made (${code}). Name another one in SLIPDRIFT_DATA, or set DATABASE_URL.`,
      { cause },
    );
  }
}
