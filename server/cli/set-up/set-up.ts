import { basename } from 'node:path';
import { Argument, type Command } from 'commander';
import { CommandError } from '#server/cli/command-error.ts';
import { toOrigin } from '#server/cli/to-origin.ts';
import { type SetUpKind, setUpKinds } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import { describeFaults, describeSetUp } from './describe-set-up.ts';
import { readSetUpFile } from './read-set-up-file.ts';
import { openServer, openStorageItself } from './set-up-target.ts';

interface SetUpFlags {
  dryRun?: boolean;
  to?: string;
  key?: string;
}

export function addSetUp(program: Command): void {
  program
    .command('set-up')
    .description('set up depots, platforms, vehicles, lives or past failures from a CSV file')
    .addArgument(new Argument('<kind>', 'what the lines are').choices(setUpKinds))
    .argument('<file>', 'CSV with our column names, plain or .gz')
    .option('--dry-run', 'say what it would come to, and change nothing')
    .option('--to <url>', 'a server that runs, instead of the storage itself', toOrigin)
    .option('--key <key>', 'its key, else SLIPDRIFT_API_KEY')
    .addHelpText(
      'after',
      `
All of a file is taken or none of it. An empty cell leaves what is there, - takes it away. The columns are in
docs/guide/set-up-files.md; a running server gives a file to begin with at /api/set-up/vehicles/template, and what is
on record at /api/set-up/vehicles. Order that works: ${setUpKinds.join(', ')}.

Examples:
  slipdrift set-up vehicles fleet.csv --dry-run
  slipdrift set-up failures book.csv --to http://127.0.0.1:4280`,
    )
    .action(setUp);
}

async function setUp(kind: SetUpKind, path: string, flags: SetUpFlags): Promise<void> {
  const name = basename(path);
  const bytes = await readSetUpFile(path);
  const dryRun = flags.dryRun === true;
  const key = flags.key || process.env.SLIPDRIFT_API_KEY || null;
  const target = flags.to === undefined ? await openStorageItself() : openServer(flags.to, key);
  try {
    const reply = await target.take(kind, bytes, dryRun);
    console.log(describeSetUp(name, reply).join('\n'));
    if (flags.to === undefined && !dryRun && reply.created + reply.changed > 0)
      console.log('The next start of the server, or slipdrift assess, works this in.');
  } catch (error) {
    if (!(error instanceof SlipdriftError) || error.errors.length === 0) throw error;
    console.error([`${name}:`, ...describeFaults(error.errors)].join('\n'));
    throw new CommandError(`${name} has faults. Nothing was changed.`);
  } finally {
    await target.close();
  }
}
