import type { Command } from 'commander';
import { CommandError } from '#server/cli/command-error.ts';
import { showProgress } from '#server/cli/progress.ts';
import { toOrigin } from '#server/cli/to-origin.ts';
import { SlipdriftError } from '#server/errors.ts';
import { describeImport, describeRefusal } from './describe-import.ts';
import { type ImportTarget, openOwnStorage, openServer } from './import-target.ts';
import { openImportFile } from './open-import-file.ts';

interface ImportFlags {
  to?: string;
  key?: string;
  ignoreUnknownColumns?: boolean;
}

/** A smaller file is done before anyone looks. */
const WORTH_A_BAR_BYTES = 4_194_304;

export function addImport(program: Command): void {
  program
    .command('import')
    .description('store readings from CSV, NDJSON or JSON files, plain or .gz')
    .argument('<file...>', 'files; the format is told by name or content')
    .option('--to <url>', 'a server that runs, instead of the storage itself', toOrigin)
    .option('--key <key>', 'its key, else SLIPDRIFT_API_KEY')
    .option('--ignore-unknown-columns', 'leave out CSV columns of other names than ours')
    .addHelpText(
      'after',
      `
The same file may be imported again: readings already there are not stored twice. Refused lines are kept and
shown; they do not fail the import, a file that breaks off or of which every line is refused does.

Examples:
  slipdrift import march.csv april.ndjson.gz
  slipdrift import --to http://127.0.0.1:4280 march.csv`,
    )
    .action(importFiles);
}

async function importFiles(paths: string[], flags: ImportFlags): Promise<void> {
  const ignoreUnknown = flags.ignoreUnknownColumns === true;
  const key = flags.key || process.env.SLIPDRIFT_API_KEY || null;
  for (const path of paths) await openImportFile(path);
  const target =
    flags.to === undefined ? await openOwnStorage(ignoreUnknown) : openServer(flags.to, key, ignoreUnknown);
  let failed = 0;
  try {
    for (const path of paths) if (!(await importFile(target, path))) failed += 1;
  } finally {
    await target.close();
  }
  if (failed > 0) throw new CommandError(`${failed} of ${paths.length} files could not be imported whole.`);
  if (flags.to === undefined)
    console.log('The next start of the server, or slipdrift assess, works this in.');
}

/** Answers whether the file was read to its end and brought anything. */
async function importFile(target: ImportTarget, path: string): Promise<boolean> {
  const file = await openImportFile(path);
  const progress = file.bytes < WORTH_A_BAR_BYTES ? null : showProgress(file.name);
  const startedMs = performance.now();
  try {
    const body = file.read((share) => progress?.update(share, ''));
    const imported = await target.take(file, body);
    progress?.stop();
    const lines = describeImport(file.name, imported, (performance.now() - startedMs) / 1000);
    console.log(lines.join('\n'));
    const { received, refused } = imported.reply;
    return imported.fault === null && (received === 0 || refused < received);
  } catch (error) {
    progress?.stop();
    if (!(error instanceof SlipdriftError)) throw error;
    const reasons = error.errors.map((reason) => `  ${describeRefusal(reason)}`);
    console.error([`${file.name}: ${error.message}`, ...reasons].join('\n'));
    return false;
  }
}
