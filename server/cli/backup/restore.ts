import { stat } from 'node:fs/promises';
import { type Command, Option } from 'commander';
import { CommandError } from '#server/cli/command-error.ts';
import { showProgress } from '#server/cli/progress.ts';
import { readOwnSettings, withStorage } from '#server/cli/with-storage.ts';
import { checkBackup } from '#server/services/backup/check-backup.ts';
import { countByTable, type Manifest } from '#server/services/backup/manifest.ts';
import { migrationsFor, restoreStorage } from '#server/services/backup/restore-storage.ts';
import { describeContent, describeOrigin, describeSize, secondsSince } from './describe-backup.ts';
import { untilInterrupted } from './until-interrupted.ts';

interface RestoreFlags {
  check?: boolean;
  replace?: boolean;
}

export function addRestore(program: Command): void {
  program
    .command('restore')
    .description('put what a backup holds into the storage, all of it or nothing')
    .argument('<file>', 'a backup')
    .option('--replace', 'put it in the place of the data that are there; those are gone')
    .addOption(new Option('--check', 'only read the file and say what it holds').conflicts('replace'))
    .addHelpText(
      'after',
      `
The whole file is checked first. Nothing is changed before all of it has been read in, and others work on with the
old data until then. A backup of an older Slipdrift is brought up to date. People, keys and sign-ins are those of the
backup.

Examples:
  slipdrift restore --check /var/backups/slipdrift-2026-03-04.tar.gz
  slipdrift restore --replace /var/backups/slipdrift-2026-03-04.tar.gz`,
    )
    .action(restore);
}

async function restore(path: string, flags: RestoreFlags): Promise<void> {
  if (path === '-')
    throw new CommandError('A restore reads its file twice: write standard input into a file first.');
  const settings = readOwnSettings();
  await untilInterrupted('The restore was interrupted. Nothing was changed.', async (signal) => {
    const manifest = await withProgress('check', path, (onBytes) => checkBackup(path, { onBytes, signal }));
    migrationsFor(path, manifest);
    if (flags.check === true) {
      report(path, manifest);
      return;
    }
    const startedMs = performance.now();
    const { migrated, leftOut } = await withProgress('restore', path, (onBytes) =>
      withStorage(settings, (url) =>
        restoreStorage(url, path, manifest, { replace: flags.replace === true, onBytes, signal }),
      ),
    );
    console.log(
      `Restored ${describeContent(manifest)}, in ${secondsSince(startedMs)}, written ${describeOrigin(manifest)}.`,
    );
    if (migrated.length > 0) console.log(`Brought up to date with ${migrated.join(', ')}.`);
    if (leftOut.length > 0)
      console.error(`Left out, because they are not Slipdrift's: the tables ${leftOut.join(', ')}.`);
  });
}

function report(path: string, manifest: Manifest): void {
  const unpacked = manifest.tables.reduce((sum, { bytes }) => sum + bytes, 0);
  console.log(`${path} is whole: ${describeContent(manifest)}, written ${describeOrigin(manifest)}.`);
  for (const { name, rows } of countByTable(manifest)) console.log(`  ${name}: ${rows.toLocaleString('en')}`);
  console.log(`  ${describeSize(unpacked)} unpacked, from PostgreSQL ${manifest.postgresql}`);
}

async function withProgress<T>(
  title: string,
  path: string,
  work: (onBytes: (bytes: number) => void) => Promise<T>,
): Promise<T> {
  const size = (await stat(path).catch(() => null))?.size ?? 0;
  const progress = process.stderr.isTTY ? showProgress(title) : null;
  let done = 0;
  try {
    return await work((bytes) => {
      done += bytes;
      progress?.update(Math.min(1, done / Math.max(1, size)), '');
    });
  } finally {
    progress?.stop();
  }
}
