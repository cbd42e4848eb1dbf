import { quoteName } from '#db/backup/quote-name.ts';
import { onEveryNode, onOneNode, SPLIT_COLUMN, splitByVehicle } from './places.ts';
import type { Cluster } from './read-cluster.ts';
import { type SchemaKey, schemaKeys } from './schema-tables.ts';

/** One statement, committed for itself: what an interrupted run has done stays, and the next one goes on. */
export interface Step {
  say: string;
  sql: string;
}

const [ANCHOR] = splitByVehicle;
const isMoved = (name: string) => !Object.hasOwn(onOneNode, name);

/**
 * What is left to do. Foreign keys go first and come back last, as the extension's documentation advises: halfway, when one
 * of two tables has moved, they could not be held. Copies come before splits, which refer to them. Then the first node
 * forgets the rows that it still has of moved tables; where that was interrupted it is done again.
 */
export function planSteps(
  { placed }: Pick<Cluster, 'placed'>,
  keysThere: ReadonlySet<string>,
  shards: number | null,
): Step[] {
  const keys = schemaKeys.filter(({ table, of }) => isMoved(table) || isMoved(of));
  const missing = keys.filter(({ name }) => !keysThere.has(name));
  const copies = onEveryNode.filter((name) => !placed.has(name));
  const splits = splitByVehicle.filter((name) => !placed.has(name));
  if (missing.length + copies.length + splits.length === 0) return [];
  return [
    ...keys
      .filter(({ name }) => keysThere.has(name))
      .map(({ name, table }) => ({
        say: `${table}: take the foreign key ${name} away`,
        sql: `alter table public.${quoteName(table)} drop constraint ${quoteName(name)}`,
      })),
    ...copies.map((name) => ({
      say: `${name}: copy to every node`,
      sql: `select create_reference_table('public.${name}')`,
    })),
    ...splits.map((name) => ({ say: `${name}: split by ${SPLIT_COLUMN}`, sql: splitTable(name, shards) })),
    ...[...onEveryNode, ...splitByVehicle].map((name) => ({
      say: `${name}: free what the first node still has of it`,
      sql: `select truncate_local_data_after_distributing_table('public.${name}')`,
    })),
    ...keys.map((key) => ({ say: `${key.table}: put the foreign key ${key.name} back`, sql: addKey(key) })),
  ];
}

function splitTable(name: string, shards: number | null): string {
  const group =
    name === ANCHOR ? `'none'${shards === null ? '' : `, shard_count => ${shards}`}` : `'public.${ANCHOR}'`;
  return `select create_distributed_table('public.${name}', '${SPLIT_COLUMN}', colocate_with => ${group})`;
}

function addKey({ name, table, columns, of, ofColumns, onDelete }: SchemaKey): string {
  const list = (names: readonly string[]) => names.map(quoteName).join(', ');
  return `alter table public.${quoteName(table)} add constraint ${quoteName(name)} foreign key (${list(columns)}) references public.${quoteName(of)} (${list(ofColumns)}) on delete ${onDelete}`;
}
