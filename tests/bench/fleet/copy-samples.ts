import type { RawClient } from '#db/client.ts';

/** What a vehicle has of its own beside its readings, as an assessment leaves it. */
const TABLES = [
  'stretches',
  'stretch_totals',
  'odometer_steps',
  'reading_spans',
  'assessments',
  'life_weeks',
];

/** Gives every vehicle beyond the samples what its sample has; keys go up from 1, and so do the samples'. */
export async function copySamples(client: RawClient, samples: number): Promise<void> {
  for (const table of TABLES) {
    const columns = await listColumns(client, table);
    await client.unsafe(`
      insert into ${table} (vehicle, ${columns.join(', ')})
      select v.key, ${columns.map((column) => `t.${column}`).join(', ')}
      from vehicles v join ${table} t on t.vehicle = 1 + (v.key - 1) % ${samples}
      where v.key > ${samples}
      order by v.key`);
    await client.unsafe(`analyze ${table}`);
  }
}

/** All but the vehicle. */
export async function listColumns(client: RawClient, table: string): Promise<string[]> {
  const rows = await client<{ name: string }[]>`
    select quote_ident(attname) as name from pg_attribute
    where attrelid = ${table}::regclass and attnum > 0 and not attisdropped and attname <> 'vehicle'
    order by attnum`;
  return rows.map(({ name }) => name);
}
