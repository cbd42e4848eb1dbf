import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  unlinkSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { chooseAccount } from './choose-account.ts';
import { findProgram, type PostgresProgram } from './find-program.ts';
import { placeProgram } from './place-program.ts';
import { missingLinks } from './restore-links.ts';

const installed = findProgram();
let place: string;
let program: PostgresProgram;
beforeEach(() => {
  place = makeTemporaryFolder();
  const folder = join(place, 'installed');
  mkdirSync(folder, { mode: 0o755 });
  // Links and libraries are what matters here; the rest of the program is only there to be found.
  for (const part of ['bin', 'lib', 'pg-symlinks.json'])
    cpSync(join(installed.folder, part), join(folder, part), {
      recursive: true,
      verbatimSymlinks: true,
      filter: (source) => !/\.a$|libicudata|\/postgresql\//.test(source),
    });
  program = { ...installed, folder };
});
afterEach(() => rmSync(place, { recursive: true, force: true }));

const links = () =>
  (JSON.parse(readFileSync(join(program.folder, 'pg-symlinks.json'), 'utf8')) as { target: string }[])
    .map(({ target }) => target.replace('native/', ''))
    .filter((target) => !target.includes('libicudata'));

it('puts back the links that an install without scripts leaves out', () => {
  for (const link of links()) unlinkSync(join(program.folder, link));
  expect(missingLinks(program.folder).length).toBeGreaterThanOrEqual(links().length);
  placeProgram(program, null, join(place, 'spare'));
  for (const link of links()) expect(existsSync(join(program.folder, link))).toBe(true);
  expect(readlinkSync(join(program.folder, 'lib/libpq.so.5'))).toMatch(/^libpq\.so\.5\.\d+$/);
});

it('makes a copy, once, where the installed program cannot be used as it is', () => {
  const account = chooseAccount(join(place, 'none'));
  // Root's PostgreSQL account cannot enter a closed folder; for anybody else the folder is closed to writing.
  if (account === null) for (const link of links()) unlinkSync(join(program.folder, link));
  chmodSync(
    account === null ? join(program.folder, 'lib') : program.folder,
    account === null ? 0o555 : 0o700,
  );
  const spare = join(place, 'spare');
  const first = placeProgram(program, account, spare);
  expect(first).toBe(join(spare, `postgresql-${installed.version}-${process.platform}-${process.arch}`));
  for (const link of links()) expect(existsSync(join(first, link))).toBe(true);
  expect(placeProgram(program, account, spare)).toBe(first);
  chmodSync(join(program.folder, 'lib'), 0o755);
});
