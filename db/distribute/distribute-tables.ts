import { runAlone } from '#db/backup/run-alone.ts';
import type { RawClient } from '#db/client.ts';
import { lockSchema, refuseNewerSchema } from '#db/migrate.ts';
import { dropViews, placeViews } from '#db/notebook/place-views.ts';
import { StorageError } from '#db/storage-error.ts';
import { planSteps, type Step } from './plan-steps.ts';
import { type Cluster, readCluster } from './read-cluster.ts';
import { refuseCluster } from './refuse-cluster.ts';
import { schemaKeys } from './schema-tables.ts';

export interface DistributeOptions {
  /** else only what there is to do is answered */
  isReal: boolean;
  /** pieces of each split table; null for as many as the server is set to */
  shards: number | null;
  onStep?: (step: Step, done: number, of: number) => void;
  signal?: AbortSignal;
}

export interface Distributed {
  cluster: Cluster;
  steps: Step[];
}

/**
 * Distributes the tables by db/distribute/places.ts with the Citus extension, or says what that would do. Written by the
 * extension's documentation (docs.citusdata.com), and tried on a stand-in that checks its rules: not yet on the extension itself.
 */
export async function distributeTables(
  url: string,
  { isReal, shards, onStep, signal }: DistributeOptions,
): Promise<Distributed> {
  return runAlone(url, async (client) => {
    await client.unsafe('set statement_timeout = 0; set idle_in_transaction_session_timeout = 0');
    await lockSchema(client, isReal ? 'alone' : 'shared');
    const cluster = await readCluster(client);
    refuseCluster(cluster);
    if (await refuseNewerSchema(client))
      throw new StorageError(
        'The tables are not those of this Slipdrift. Nothing was changed; start it once with this database, stop it, and do it again.',
      );
    const steps = planSteps(cluster, await listForeignKeys(client), shards);
    if (!isReal || steps.length === 0) return { cluster, steps };
    await refuseOthers(client);
    await client.unsafe('set lock_timeout = 0');
    await client.begin((transaction) => dropViews(transaction));
    for (const [done, step] of steps.entries()) {
      signal?.throwIfAborted();
      onStep?.(step, done, steps.length);
      await client.unsafe(step.sql);
    }
    await client.begin((transaction) => placeViews(transaction));
    await noteDistribution(client, steps.length);
    return { cluster, steps };
  });
}

async function listForeignKeys(client: RawClient): Promise<ReadonlySet<string>> {
  const ours = schemaKeys.map(({ name }) => name);
  const rows = await client<{ name: string }[]>`
    select conname as name from pg_constraint
    where contype = 'f' and conparentid = 0 and connamespace = 'public'::regnamespace and conname = any(${ours})`;
  return new Set(rows.map(({ name }) => name));
}

/** Programs that work with the database would find tables without their foreign keys, and wait for each that moves. */
async function refuseOthers(client: RawClient): Promise<void> {
  const [row] = await client`
    select count(*)::int as n from pg_stat_activity
    where datname = current_database() and application_name = 'slipdrift' and pid <> pg_backend_pid()`;
  if (row?.n === 0) return;
  throw new StorageError(
    'A Slipdrift works with this database. Nothing was changed; stop all of them while tables are moved.',
  );
}

async function noteDistribution(client: RawClient, steps: number): Promise<void> {
  await client`
    insert into public.changes (at, actor_kind, actor_name, action, subject, subject_id, after)
    values (clock_timestamp(), 'program', 'command line', 'distributed', 'storage', 'storage',
      ${JSON.stringify({ steps })}::text::jsonb)`;
}
