import type { Command } from 'commander';
import { CommandError } from '#server/cli/command-error.ts';
import { showProgress } from '#server/cli/progress.ts';
import { toOrigin } from '#server/cli/to-origin.ts';
import { mappingName } from '#server/contract/mappings.ts';
import { SlipdriftError } from '#server/errors.ts';
import { describeImport, describeRefusal } from './describe-import.ts';
import { type ImportTarget, openOwnStorage, openServer } from './import-target.ts';
import { lookAtFile } from './look-at-file.ts';
import { type ImportFile, openImportFile } from './open-import-file.ts';
import { type GivenFlags, readGivenFlags } from './read-options.ts';

interface ImportFlags extends GivenFlags {
  to?: string;
  key?: string;
  ignoreUnknownColumns?: boolean;
  mapping?: string;
  look?: boolean;
  saveMapping?: string;
}

/** A smaller file is done before anyone looks. */
const WORTH_A_BAR_BYTES = 4_194_304;

export function addImport(program: Command): void {
  program
    .command('import')
    .description('store readings from CSV, NDJSON or JSON files or CAN logs, plain or .gz')
    .argument('<file...>', 'files; the format is told by name or content')
    .option('--to <url>', 'a server that runs, instead of the storage itself', toOrigin)
    .option('--key <key>', 'its key, else SLIPDRIFT_API_KEY')
    .option('--mapping <name>', 'read CSV of another form by the saved mapping of this name')
    .option('--vehicle <unit>', 'vehicle of files that name none')
    .option('--date <day>', 'day of the first row, of files that have the time of day alone')
    .option('--zone <zone>', 'of times that carry none, such as Europe/Berlin or +02:00')
    .option('--start <moment>', 'when the clock of the file stood at 0, such as 2026-03-04T05:06:07Z')
    .option('--window <seconds>', 'CAN log: length of the windows that readings are made of (10)')
    .option('--look', 'show what the files would come to, and store nothing')
    .option('--save-mapping <name>', 'with --look: save the proposed mapping, where nothing is lacking')
    .option('--ignore-unknown-columns', 'leave out CSV columns of other names than ours')
    .addHelpText(
      'after',
      `
The same file may be imported again: readings already there are not stored twice. Refused lines are kept and
shown; they do not fail the import, a file that breaks off or of which every line is refused does.

Examples:
  slipdrift import march.csv april.ndjson.gz
  slipdrift import --to http://127.0.0.1:4280 march.csv
  slipdrift import --look --zone Europe/Berlin --save-mapping depot-north export.csv
  slipdrift import --mapping depot-north export.csv`,
    )
    .action(importFiles);
}

async function importFiles(paths: string[], flags: ImportFlags): Promise<void> {
  const saveAs = flags.saveMapping ?? null;
  if (saveAs !== null && flags.look !== true) throw new CommandError('--save-mapping goes with --look.');
  if (saveAs !== null && !mappingName.safeParse(saveAs).success)
    throw new CommandError(
      '--save-mapping must be 1 to 64 letters, digits, spaces or . _ - and begin with a letter or digit.',
    );
  const options = {
    ignoreUnknownColumns: flags.ignoreUnknownColumns === true,
    mapping: flags.mapping ?? null,
    given: readGivenFlags(flags),
  };
  const key = flags.key || process.env.SLIPDRIFT_API_KEY || null;
  for (const path of paths) await openImportFile(path);
  const target = flags.to === undefined ? await openOwnStorage(options) : openServer(flags.to, key, options);
  const work =
    flags.look === true
      ? (file: ImportFile) => lookAtFile(target, file, saveAs, flags.zone ?? null)
      : (file: ImportFile) => importFile(target, file, options.mapping !== null);
  let failed = 0;
  try {
    for (const path of paths) if (!(await withReasons(await openImportFile(path), work))) failed += 1;
  } finally {
    await target.close();
  }
  if (failed > 0)
    throw new CommandError(
      flags.look === true
        ? `${failed} of ${paths.length} files cannot be read yet.`
        : `${failed} of ${paths.length} files could not be imported whole.`,
    );
  if (flags.to === undefined && flags.look !== true)
    console.log('The next start of the server, or slipdrift assess, works this in.');
}

/** A file that is declined says why, and the next goes on. */
async function withReasons(file: ImportFile, work: (file: ImportFile) => Promise<boolean>): Promise<boolean> {
  try {
    return await work(file);
  } catch (error) {
    if (!(error instanceof SlipdriftError)) throw error;
    const reasons = error.errors.map((reason) => `  ${describeRefusal(reason)}`);
    console.error([`${file.name}: ${error.message}`, ...reasons].join('\n'));
    return false;
  }
}

/** Answers whether the file was read to its end and brought anything. */
async function importFile(target: ImportTarget, file: ImportFile, isMapped: boolean): Promise<boolean> {
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
    if (
      error instanceof SlipdriftError &&
      error.code === 'invalid_request' &&
      file.format === 'csv' &&
      !isMapped
    )
      throw new SlipdriftError(
        error.code,
        `${error.message} A file of another form: see what it would come to with slipdrift import --look, save the mapping that it proposes, and import with --mapping.`,
        { errors: error.errors, cause: error },
      );
    throw error;
  }
}
