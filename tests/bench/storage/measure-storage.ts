import type { RawClient } from '#db/client.ts';
import { makeRow } from '#tests/bench/deliveries/made-rows.ts';
import { listColumns } from '#tests/bench/fleet/copy-samples.ts';
import { deliver } from '#tests/bench/fleet/deliver.ts';
import { settle } from '#tests/bench/fleet/make-fleet.ts';
import type { BenchServer } from '#tests/bench/open-server.ts';
import type { Tell } from '#tests/bench/report.ts';

const WANTED = { at_most: 90 };
const SAMPLED = 20_000;

/** Bytes that a stored reading takes, with its indexes, and what they are made of. */
export async function tellStorage(client: RawClient, where: string, tell: Tell): Promise<void> {
  const [row] = await client<{ rows: number; total: number; heap: number; indexes: number }[]>`
    select (select count(*) from readings) as rows, sum(pg_total_relation_size(inhrelid))::float8 as total,
      sum(pg_relation_size(inhrelid))::float8 as heap, sum(pg_indexes_size(inhrelid))::float8 as indexes
    from pg_inherits where inhparent = 'readings'::regclass`;
  if (row === undefined || row.rows === 0) throw new Error('there are no readings');
  const columns = ['vehicle', ...(await listColumns(client, 'readings'))];
  const [tuple] = await client.unsafe<{ whole: number; values: number }[]>(`
    select avg(pg_column_size(r.*))::float8 as whole,
      avg(${columns.map((column) => `coalesce(pg_column_size(r.${column}), 0)`).join(' + ')})::float8 as values
    from (select * from readings limit ${SAMPLED}) r`);
  const { whole = Number.NaN, values = Number.NaN } = tuple ?? {};
  const heap = row.heap / row.rows;
  const tellPart = (what: string, value: number, wanted = false) =>
    tell({
      figure: `bytes a reading, ${where}: ${what}`,
      value,
      unit: 'B',
      ...(wanted ? { wanted: WANTED } : {}),
    });
  tell({
    figure: `bytes a reading, ${where}, indexes included`,
    value: row.total / row.rows,
    unit: 'B',
    reference: { what: 'its values alone', value: values },
    wanted: WANTED,
  });
  tellPart('heap', heap);
  tellPart('of the heap, values', values);
  tellPart('of the heap, header of the row, nulls and alignment', whole - values);
  tellPart('of the heap, pages and free space', heap - whole);
  tellPart('indexes', row.indexes / row.rows);
}

/** The same of rows that came over HTTP with all eleven fields, on a server with nothing else: within a day, or late. */
export async function measureDelivered(
  server: BenchServer,
  scale: number,
  fate: 'within a day of their moment' | 'late',
  tell: Tell,
): Promise<void> {
  const turns = Math.max(20, Math.round(200 * scale));
  const vehicles = 1_000;
  const endMs = Date.now() - 60_000;
  const spanMs = 20 * 3_600_000;
  const lines = function* () {
    for (let turn = 0; turn < turns; turn++)
      for (let vehicle = 0; vehicle < vehicles; vehicle++) {
        const row = makeRow('S', vehicle, turn);
        const atMs = endMs - spanMs + Math.floor((spanMs * turn) / turns) + vehicle;
        yield fate === 'late' ? row : { ...row, at: new Date(atMs).toISOString() };
      }
  };
  await server.client`truncate readings`;
  const { stored } = await deliver(server.url, lines());
  if (stored !== turns * vehicles) throw new Error(`of ${turns * vehicles} readings ${stored} were stored`);
  await server.client`vacuum readings`;
  await tellStorage(server.client, `11 fields over HTTP, ${fate}, as delivered`, tell);
  if (fate === 'late') {
    await settle(server);
    await tellStorage(server.client, `11 fields over HTTP, ${fate}, months settled`, tell);
  }
}
