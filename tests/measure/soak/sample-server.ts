import { readFileSync } from 'node:fs';
import type { RawClient } from '#db/client.ts';

const MIB = 1_048_576;

export interface Sample {
  /** since the first sample */
  atS: number;
  /** resident memory of the process, as the kernel counts it, MiB */
  rssMiB: number;
  /** objects of the main thread, MiB */
  heapMiB: number;
  connections: number;
  /** connections that hold a transaction open and do nothing */
  waiting: number;
}

/** Looks at the process, its figures and its connections every so many seconds, until it is stopped. */
export function startSampling(
  { pid, url, headers }: { pid: number; url: string; headers: Record<string, string> },
  client: RawClient,
  everyS: number,
) {
  const samples: Sample[] = [];
  const errors: string[] = [];
  const startedMs = performance.now();
  let running: Promise<void> = Promise.resolve();

  const take = async () => {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const metrics = await (await fetch(`${url}/metrics`, { headers })).text();
    const { connections, waiting } = await countConnections(client);
    samples.push({
      atS: (performance.now() - startedMs) / 1000,
      rssMiB: Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1]) / 1024,
      heapMiB: Number(/^nodejs_heap_size_used_bytes ([\d.e+]+)$/m.exec(metrics)?.[1]) / MIB,
      connections,
      waiting,
    });
  };
  const timer = setInterval(() => {
    running = running.then(take).catch((error: unknown) => {
      errors.push(`sampling: ${error}`);
    });
  }, everyS * 1000);
  return {
    errors,
    async stop(): Promise<Sample[]> {
      clearInterval(timer);
      await running;
      return samples;
    },
  };
}

/** Connections of the program, those of the sampler left out. */
export async function countConnections(client: RawClient) {
  const [row] = await client`
    select count(*)::int as connections,
      count(*) filter (where state = 'active')::int as active,
      count(*) filter (where state like 'idle in transaction%')::int as waiting
    from pg_stat_activity
    where datname = current_database() and backend_type = 'client backend' and application_name <> 'soak'`;
  return {
    connections: Number(row?.connections),
    active: Number(row?.active),
    waiting: Number(row?.waiting),
  };
}

/** Size of each table with its partitions and indexes, MiB, largest first. */
export async function measureTables(client: RawClient): Promise<Record<string, number>> {
  const rows = await client`
    select coalesce(pg_partition_root(oid), oid)::regclass::text as name,
      sum(pg_total_relation_size(oid))::float8 / ${MIB} as mib
    from pg_class where relkind = 'r' and relnamespace = 'public'::regnamespace
    group by 1 order by 2 desc`;
  return Object.fromEntries(rows.map(({ name, mib }) => [String(name), Math.round(Number(mib) * 10) / 10]));
}
