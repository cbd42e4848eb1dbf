import type { Command } from 'commander';
import { withContext } from '#server/cli/access/with-context.ts';
import { readOwnSettings } from '#server/cli/with-storage.ts';
import { getStorage } from '#server/services/storage/get-storage.ts';
import { describeStorage } from './describe-storage.ts';

export function addStorage(program: Command): void {
  program
    .command('storage')
    .description('how much is stored by month and by table, what retention drops next, how the upkeep goes')
    .option('--json', 'as GET /api/storage answers')
    .addHelpText(
      'after',
      '\nRead with the same settings as the server: it says by them what is dropped when.\n\nExamples:\n  slipdrift storage\n  slipdrift storage --json',
    )
    .action(({ json = false }: { json?: boolean }) =>
      withContext(async ({ context }) => {
        const { keepReadingsMonths, keepReceiptsMonths, databaseUrl } = readOwnSettings();
        const ownServer = databaseUrl === null;
        const report = await getStorage(context, { keepReadingsMonths, keepReceiptsMonths, ownServer });
        console.log(json ? JSON.stringify(report, null, 2) : describeStorage(report));
      }),
    );
}
