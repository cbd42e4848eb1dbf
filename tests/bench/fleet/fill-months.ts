import { openDatabase, type RawClient } from '#db/client.ts';
import { listColumns } from './copy-samples.ts';

interface Month {
  name: string;
  bounds: string;
}

/**
 * Gives every vehicle beyond the samples the readings of its sample, month by month, over two connections: rows in the order of
 * the key into a table without one, then the key, then the table in the place of the month. They count as having arrived within a day.
 */
export async function fillMonths(databaseUrl: string, samples: number): Promise<void> {
  const { client, close } = openDatabase(databaseUrl, { connections: 2 });
  try {
    const months = await client<Month[]>`
      select child.relname as name, pg_get_expr(child.relpartbound, child.oid) as bounds
      from pg_inherits join pg_class child on child.oid = inhrelid
      where inhparent = 'readings'::regclass order by 1`;
    const columns = await listColumns(client, 'readings');
    const queue = [...months];
    const work = async () => {
      for (let month = queue.shift(); month !== undefined; month = queue.shift())
        await fillMonth(client, month, columns, samples);
    };
    await Promise.all([work(), work()]);
  } finally {
    await close();
  }
}

async function fillMonth(
  client: RawClient,
  { name, bounds }: Month,
  columns: readonly string[],
  samples: number,
): Promise<void> {
  await client.begin(async (own) => {
    await own.unsafe(`set local synchronous_commit = off; set local maintenance_work_mem = '400MB'`);
    await own.unsafe(`create table fill_${name} (like readings including all excluding indexes)`);
    await own.unsafe(`
      insert into fill_${name} (vehicle, ${columns.join(', ')})
      select v.key, ${columns.map((column) => (column === 'arrived_at' ? 'null' : `r.${column}`)).join(', ')}
      from (select key from vehicles order by key) v
        cross join lateral (
          select * from ${name} s where s.vehicle = 1 + (v.key - 1) % ${samples} order by s.at offset 0) r`);
    await own.unsafe(`alter table fill_${name} add primary key (vehicle, at) with (fillfactor = 100)`);
  });
  await client.begin(async (own) => {
    await own.unsafe(`alter table readings detach partition ${name}`);
    await own.unsafe(`drop table ${name}`);
    await own.unsafe(`alter table fill_${name} rename to ${name}`);
    await own.unsafe(`alter index fill_${name}_pkey rename to ${name}_pkey`);
    await own.unsafe(`alter table readings attach partition ${name} ${bounds}`);
  });
}
