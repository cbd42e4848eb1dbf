import { existsSync, mkdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { startEmbedded } from '#db/embedded/start-embedded.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

const home = makeTemporaryFolder(0o700);
const folder = join(home, 'checkout/data');
const isRoot = process.getuid?.() === 0;
afterEach(() => {
  removeStorage(folder);
  rmSync(home, { recursive: true, force: true });
});

it('keeps its data across starts under a home that nobody else may enter', async () => {
  mkdirSync(folder, { recursive: true });
  const first = await startEmbedded({ folder });
  const { client, close } = openDatabase(first.url);
  await client`create table kept (n integer)`;
  await close();
  await first.stop();
  const second = await startEmbedded({ folder });
  const again = openDatabase(second.url);
  expect(await again.client`select count(*) as n from kept`).toEqual([{ n: 0 }]);
  await again.close();
  await second.stop();

  // Root's PostgreSQL runs as another account, which cannot enter; an ordinary user's runs as that user.
  expect(second.moved).toBe(isRoot);
  const pointer = join(folder, 'MOVED-TO');
  expect(existsSync(pointer)).toBe(isRoot);
  const place = isRoot ? readFileSync(pointer, 'utf8').trim() : folder;
  expect(second.folder).toBe(place);
  const { uid, mode } = statSync(join(place, 'postgres'));
  expect(mode & 0o777).toBe(0o700);
  expect(uid === 0).toBe(false);
  expect(statSync(home).mode & 0o777).toBe(0o700);
});
