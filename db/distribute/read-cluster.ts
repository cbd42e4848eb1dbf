import type { Connection } from '#db/connection.ts';

/** What a server says of the Citus extension, by its documentation. */
export interface Cluster {
  /** its version; null where the database has not made it */
  extension: string | null;
  /** the server could make it */
  isAvailable: boolean;
  /** the server has loaded its library at start */
  isLoaded: boolean;
  /** the first node is in its own list of nodes: only so it may hold copies, and tables that refer to them */
  knowsItself: boolean;
  /** other nodes in use */
  workers: number;
  /** pieces of a table that is newly split */
  shards: number | null;
  /** tables that are no longer plain */
  placed: ReadonlyMap<string, { kind: string; column: string | null }>;
}

export async function readCluster(client: Connection): Promise<Cluster> {
  const [row] = await client<{ extension: string | null; available: boolean; shards: string | null }[]>`
    select (select extversion from pg_extension where extname = 'citus') as extension,
      exists (select from pg_available_extensions where name = 'citus') as available,
      current_setting('citus.shard_count', true) as shards`;
  const { extension = null, available = false, shards = null } = row ?? {};
  const known = {
    extension,
    isAvailable: available,
    isLoaded: shards !== null && shards !== '',
    shards: shards === null ? null : Number(shards),
  };
  if (extension === null) return { ...known, knowsItself: false, workers: 0, placed: new Map() };
  const [nodes] = await client<{ itself: boolean; workers: number }[]>`
    select coalesce(bool_or(groupid = 0), false) as itself,
      (count(*) filter (where groupid <> 0 and isactive and noderole = 'primary'))::int as workers
    from pg_dist_node`;
  const tables = await client<{ name: string; kind: string; column: string | null }[]>`
    select c.relname as name, t.citus_table_type as kind, t.distribution_column as column
    from citus_tables t join pg_class c on c.oid = t.table_name
    where c.relnamespace = 'public'::regnamespace and t.citus_table_type in ('distributed', 'reference')`;
  return {
    ...known,
    knowsItself: nodes?.itself ?? false,
    workers: nodes?.workers ?? 0,
    placed: new Map(tables.map(({ name, kind, column }) => [name, { kind, column }])),
  };
}
