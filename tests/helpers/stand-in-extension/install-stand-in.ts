import { chmodSync, copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { TestDatabase } from '#tests/helpers/database.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

const here = fileURLToPath(new URL('.', import.meta.url));

/** Lets the server find the stand-in for one database, for those who connect from now on. Answers a folder to be removed. */
export async function offerStandIn({ client, url }: TestDatabase): Promise<string> {
  const folder = makeTemporaryFolder();
  mkdirSync(join(folder, 'extension'), { mode: 0o755 });
  for (const name of ['citus.control', 'citus--0.sql']) {
    copyFileSync(join(here, name), join(folder, 'extension', name));
    // The server may run under another account.
    chmodSync(join(folder, 'extension', name), 0o644);
  }
  const name = new URL(url).pathname.slice(1);
  await client.unsafe(`alter database ${name} set extension_control_path = '${folder}:$system'`);
  return folder;
}

/** As a server does that has loaded the extension: its settings are known. */
export const loadStandIn = ({ client, url }: TestDatabase): Promise<unknown> =>
  client.unsafe(`alter database ${new URL(url).pathname.slice(1)} set citus.shard_count = 32`);
