import { execFileSync, spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { StorageError } from '#db/storage-error.ts';

/** Who PostgreSQL runs as. PostgreSQL refuses to run as root, so root lends it an account that has few rights. */
export interface Account {
  uid: number;
  gid: number;
}

/** Accounts that exist for such work, best first; none is created, for the machine is not ours. */
const LENT_ACCOUNTS = ['slipdrift', 'postgres', 'nobody'];

/** Null where PostgreSQL simply runs as we do. An existing cluster keeps its owner. */
export function chooseAccount(cluster: string): Account | null {
  const owner = statSync(cluster, { throwIfNoEntry: false });
  const own = process.getuid?.() ?? 0;
  if (own !== 0) {
    if (owner !== undefined && owner.uid !== own)
      throw new StorageError(
        `The data in ${cluster} belongs to user ${owner.uid}, and this process runs as user ${own}. Start as root or as that user, or name another folder in SLIPDRIFT_DATA.`,
      );
    return null;
  }
  if (owner !== undefined && owner.uid !== 0) return { uid: owner.uid, gid: owner.gid };
  for (const name of LENT_ACCOUNTS) {
    const account = findAccount(name);
    if (account !== null) return account;
  }
  throw new StorageError(
    `PostgreSQL does not run as root and none of the accounts ${LENT_ACCOUNTS.join(', ')} exists. Start as an ordinary user, or set DATABASE_URL.`,
  );
}

/** Whether the account can work in the folder, asked of the system itself: modes, lists and mounts all count. */
export function canEnter(folder: string, account: Account | null): boolean {
  const result = spawnSync('/bin/sh', ['-c', 'cd "$1" && test -r .', 'sh', folder], {
    stdio: 'ignore',
    cwd: '/',
    ...account,
  });
  return result.status === 0;
}

function findAccount(name: string): Account | null {
  const ask = (flag: string) =>
    Number(execFileSync('id', [flag, name], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }));
  try {
    const account = { uid: ask('-u'), gid: ask('-g') };
    return account.uid > 0 ? account : null;
  } catch {
    return null;
  }
}
