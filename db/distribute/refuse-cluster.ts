import { StorageError } from '#db/storage-error.ts';
import { onEveryNode, SPLIT_COLUMN, splitByVehicle } from './places.ts';
import type { Cluster } from './read-cluster.ts';

/** Declines where tables cannot be distributed, with what to do about it. */
export function refuseCluster({ extension, isAvailable, isLoaded, knowsItself, placed }: Cluster): void {
  if (extension === null && !isAvailable)
    throw new StorageError(
      'The server of DATABASE_URL does not have the Citus extension of PostgreSQL, which splits tables over several machines. Nothing was changed; install it there first.',
    );
  if (extension === null)
    throw new StorageError(
      'The server has the Citus extension, but this database does not. Nothing was changed; as its administrator run create extension citus, and name the nodes: docs/scale.md says how.',
    );
  if (!isLoaded)
    throw new StorageError(
      'The server has not loaded the Citus extension. Nothing was changed; put citus first in shared_preload_libraries and start the server again.',
    );
  if (!knowsItself)
    throw new StorageError(
      "The first node is not in its own list of nodes. Nothing was changed; run select citus_set_coordinator_host('its name', 5432) first, and citus_add_node for each of the others.",
    );
  const wanted = new Map<string, string>([
    ...splitByVehicle.map((name) => [name, 'distributed'] as const),
    ...onEveryNode.map((name) => [name, 'reference'] as const),
  ]);
  const odd = [...placed].find(
    ([name, { kind, column }]) =>
      wanted.get(name) !== kind || (kind === 'distributed' && column !== SPLIT_COLUMN),
  );
  if (odd === undefined) return;
  const [name, { kind, column }] = odd;
  throw new StorageError(
    `The table ${name} is ${kind === 'distributed' ? `split by ${column}` : 'copied to every node'} already, which is not its place here. Nothing was changed; run select undistribute_table('${name}') first.`,
  );
}
