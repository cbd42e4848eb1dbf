import { resolve } from 'node:path';
import type { Command } from 'commander';
import { CommandError } from '#server/cli/command-error.ts';
import { explainWriting, openPartFile } from '#server/cli/open-part-file.ts';
import { showProgress } from '#server/cli/progress.ts';
import { readOwnSettings, requireStorage, withStorage } from '#server/cli/with-storage.ts';
import { backUpStorage } from '#server/services/backup/back-up-storage.ts';
import type { Manifest } from '#server/services/backup/manifest.ts';
import { describeContent, describeOrigin, describeSize, secondsSince } from './describe-backup.ts';
import { untilInterrupted } from './until-interrupted.ts';

const STDOUT = '-';

export function addBackup(program: Command): void {
  program
    .command('backup')
    .description('write all that is stored into one file')
    .argument('<file>', 'file to write, best ending in .tar.gz; - for standard output')
    .option('--force', 'overwrite a file that exists')
    .addHelpText(
      'after',
      `
Works while Slipdrift runs and while it does not; nobody has to wait. The file holds everything, password hashes
too: it is made readable for its owner alone, and must be kept as safe as the database. Standard output knows
no owner; set one where it goes.

Example:
  slipdrift backup /var/backups/slipdrift-$(date +%F).tar.gz`,
    )
    .action(backUp);
}

async function backUp(path: string, flags: { force?: boolean }): Promise<void> {
  const settings = readOwnSettings();
  requireStorage(settings);
  if (path === STDOUT && process.stdout.isTTY)
    throw new CommandError('A backup is not for a screen: name a file, or send standard output into one.');
  const startedMs = performance.now();
  await untilInterrupted('The backup was interrupted. Nothing was kept.', async (signal) => {
    if (path === STDOUT) {
      const manifest = await withProgress((onProgress) =>
        withStorage(settings, (url) => backUpStorage(url, process.stdout, { onProgress, signal })),
      );
      console.error(`Backed up ${describeContent(manifest)}, in ${secondsSince(startedMs)}.`);
      return;
    }
    const file = await openPartFile(path, flags.force === true);
    try {
      const manifest = await withProgress((onProgress) =>
        withStorage(settings, (url) => backUpStorage(url, file.out, { onProgress, signal })),
      );
      const bytes = await file.keep();
      console.log(
        `Backed up ${describeContent(manifest)}, in ${secondsSince(startedMs)}, into ${resolve(path)} (${describeSize(bytes)}), ${describeOrigin(manifest)}.`,
      );
      console.log('It holds password hashes and all of the fleet: keep it as safe as the database.');
    } catch (error) {
      await file.discard();
      throw explainWriting(error, path);
    }
  });
}

/** On a terminal only: whoever reads the mail of a nightly job wants to see faults and nothing else. */
async function withProgress(
  work: (onProgress: (share: number, note: string) => void) => Promise<Manifest>,
): Promise<Manifest> {
  const progress = process.stderr.isTTY ? showProgress('backup') : null;
  try {
    return await work((share, table) => progress?.update(share, table));
  } finally {
    progress?.stop();
  }
}
