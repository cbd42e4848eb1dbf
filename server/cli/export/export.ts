import { resolve } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Argument, type Command, InvalidArgumentError, Option } from 'commander';
import { openDatabase } from '#db/client.ts';
import { migrateDatabase } from '#db/migrate.ts';
import { notebookViews } from '#db/notebook/views.ts';
import { countNotebookRows } from '#db/queries/read-notebook-rows.ts';
import { untilInterrupted } from '#server/cli/backup/until-interrupted.ts';
import { CommandError } from '#server/cli/command-error.ts';
import { explainWriting, openPartFile } from '#server/cli/open-part-file.ts';
import { type ProgressReporter, showProgress } from '#server/cli/progress.ts';
import { readOwnSettings, requireStorage, withStorage } from '#server/cli/with-storage.ts';
import {
  type ExportFormat,
  exportFormats,
  exportTable,
  findExport,
  requireKnownPlaces,
} from '#server/services/export/export-table.ts';

interface ExportFlags {
  format?: ExportFormat;
  out?: string;
  platform?: string[];
  depot?: string[];
  since?: Date;
  force?: boolean;
}

const STDOUT = '-';
const BAR_AFTER_MS = 1000;

export function addExport(program: Command): void {
  program
    .command('export')
    .description('write one table of the fleet into a file, as CSV or Parquet')
    .addArgument(new Argument('<table>', 'what to write').choices(notebookViews.map(({ name }) => name)))
    .addOption(
      new Option('--format <format>', 'as the ending of the file says, else csv').choices(exportFormats),
    )
    .option('--out <file>', 'file to write, - for standard output; else the table, in this folder')
    .option('--platform <id...>', 'only these platforms')
    .option('--depot <id...>', 'only these depots')
    .option('--since <day>', 'only from this day on, YYYY-MM-DD, UTC', toDay)
    .option('--force', 'overwrite a file that exists')
    .addHelpText(
      'after',
      `
Works while Slipdrift runs and while it does not, and needs no more memory for more rows. The columns of each table,
with their units, are in docs/guide/notebooks.md; a Parquet file brings them along.

Examples:
  slipdrift export lives
  slipdrift export stretches --format parquet --out stretches.parquet --platform midi-bus --since 2026-01-01
  slipdrift export assessments --out - | gzip > assessments.csv.gz`,
    )
    .action(exportToFile);
}

async function exportToFile(table: string, flags: ExportFlags): Promise<void> {
  const settings = readOwnSettings();
  requireStorage(settings);
  const format = flags.format ?? (flags.out?.endsWith('.parquet') ? 'parquet' : 'csv');
  const path = flags.out ?? `${table}.${format}`;
  const { platform: platforms = [], depot: depots = [], since = null } = flags;
  const filter = { platforms, depots, seenDepots: null, since };
  const view = findExport(table, filter);
  if (path === STDOUT && format === 'parquet' && process.stdout.isTTY)
    throw new CommandError(
      'A Parquet file is not for a screen: name a file, or send standard output into one.',
    );
  await untilInterrupted('The export was interrupted. Nothing was kept.', async (signal) => {
    const file = path === STDOUT ? null : await openPartFile(path, flags.force === true);
    try {
      const rows = await withStorage(settings, async (url) => {
        await migrateDatabase(url);
        const { client, close } = openDatabase(url, { connections: 2 });
        try {
          await requireKnownPlaces(client, filter);
          const bar = await startBar(table, () => countNotebookRows(client, view, filter));
          let rows = 0;
          const onRows = (more: number) => {
            rows += more;
            bar.tell(rows);
          };
          const bytes = exportTable(client, view, filter, { format, now: new Date(), onRows });
          await pipeline(Readable.from(bytes), file?.out ?? process.stdout, { signal, end: file !== null })
            .catch(explainPipe)
            .finally(bar.stop);
          return rows;
        } finally {
          await close(0);
        }
      });
      await file?.keep();
      const said = `Wrote ${rows.toLocaleString('en')} rows of ${table}`;
      if (file === null) console.error(`${said}.`);
      else console.log(`${said} into ${resolve(path)}.`);
    } catch (error) {
      await file?.discard();
      throw explainWriting(error, path);
    }
  });
}

/** Whoever reads a pipe may leave, as `head` does. */
function explainPipe(error: unknown): never {
  if ((error as NodeJS.ErrnoException).code !== 'EPIPE') throw error;
  throw new CommandError('Whatever reads standard output has left; not all was written.');
}

/** On a terminal only, and only where it takes longer: rows are counted for the bar alone. */
async function startBar(table: string, count: () => Promise<number>) {
  if (!process.stderr.isTTY) return { tell() {}, stop() {} };
  const total = Math.max(1, await count());
  const startedMs = performance.now();
  let bar: ProgressReporter | null = null;
  return {
    tell(rows: number) {
      if (performance.now() - startedMs < BAR_AFTER_MS) return;
      bar ??= showProgress(table);
      bar.update(Math.min(1, rows / total), `${rows.toLocaleString('en')} rows`);
    },
    stop() {
      bar?.stop();
    },
  };
}

function toDay(text: string): Date {
  const day = new Date(`${text}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || Number.isNaN(day.getTime()) || !day.toISOString().startsWith(text))
    throw new InvalidArgumentError('It must be a day, as 2026-01-31.');
  return day;
}
