import type { Command } from 'commander';
import { distributeTables } from '#db/distribute/distribute-tables.ts';
import { onEveryNode, onOneNode, splitByVehicle } from '#db/distribute/places.ts';
import type { Cluster } from '#db/distribute/read-cluster.ts';
import { untilInterrupted } from '#server/cli/backup/until-interrupted.ts';
import { CommandError } from '#server/cli/command-error.ts';
import { readOwnSettings, withStorage } from '#server/cli/with-storage.ts';

const CAUTION =
  'Some statements of other screens than the list do not run on split tables yet: docs/scale.md names them.\nTry it on a copy.';

interface DistributeFlags {
  yes?: boolean;
  shards?: string;
}

export function addDistribute(program: Command): void {
  program
    .command('distribute')
    .description(
      'split the large tables by vehicle over several machines, with the Citus extension of PostgreSQL',
    )
    .option('--yes', 'do it; without this, only what would be done is said')
    .option('--shards <n>', 'pieces of each split table, over all machines (as the server is set)')
    .addHelpText(
      'after',
      `
For a PostgreSQL of your own, named in DATABASE_URL, that has the extension and knows its nodes. Back it up and stop
every Slipdrift first. What is distributed already is left as it is, so a run that was interrupted is finished by the
next one. Written by the documentation of the extension, and not yet run on it.

${CAUTION}

Examples:
  slipdrift distribute
  slipdrift distribute --yes --shards 64`,
    )
    .action(distribute);
}

async function distribute(flags: DistributeFlags): Promise<void> {
  const shards = flags.shards === undefined ? null : readShards(flags.shards);
  const settings = readOwnSettings();
  if (settings.databaseUrl === null)
    throw new CommandError(
      'The PostgreSQL that Slipdrift starts by itself is on one machine. Nothing was changed; to use several, name a server with the Citus extension in DATABASE_URL.',
    );
  const isReal = flags.yes === true;
  console.error(CAUTION);
  const interrupted =
    'The distribution was interrupted. What had moved stays moved; run it again to finish, before any Slipdrift is started.';
  const { cluster, steps } = await untilInterrupted(interrupted, (signal) =>
    withStorage(settings, (url) =>
      distributeTables(url, {
        isReal,
        shards,
        signal,
        onStep: ({ say }, done, of) => console.error(`${done + 1} of ${of}: ${say}`),
      }),
    ),
  );
  if (steps.length === 0) {
    console.log('Every table is in its place already. Nothing was changed.');
    return;
  }
  if (isReal) {
    console.log(`Distributed over ${describeNodes(cluster)}, in ${steps.length} steps.`);
    return;
  }
  console.log(`Would distribute over ${describeNodes(cluster)}, ${shards ?? cluster.shards} pieces a table:`);
  console.log(`  split by vehicle: ${splitByVehicle.join(', ')}`);
  console.log(`  copied to every node: ${onEveryNode.join(', ')}`);
  console.log('  left on the first node:');
  for (const [name, why] of Object.entries(onOneNode)) console.log(`    ${name}: ${why}`);
  console.log(`In ${steps.length} steps:`);
  for (const { sql } of steps) console.log(`  ${sql};`);
  console.log('Nothing was changed. Add --yes to do it.');
}

function readShards(text: string): number {
  const shards = Number(text);
  if (Number.isInteger(shards) && shards >= 1 && shards <= 4096) return shards;
  throw new CommandError(`--shards takes a whole number from 1 to 4,096, not ${text}.`);
}

const describeNodes = ({ workers }: Cluster): string =>
  workers === 0
    ? 'the first node alone'
    : `the first node and ${workers} ${workers === 1 ? 'other' : 'others'}`;
