import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { openDatabase, type RawClient } from '#db/client.ts';
import { startEmbedded } from '#db/embedded/start-embedded.ts';
import { byteShapes, type Shape } from './bytes/byte-shapes.ts';

/**
 * `npm run measure:bytes`: bytes on disk of a reading and its index, as they are stored and in other shapes, one JSON line
 * each. `-- --readings 100000` makes fewer than half a million, of 1,000 vehicles as gateways send them.
 */
const { values } = parseArgs({ options: { readings: { type: 'string', default: '500000' } } });
const readings = Number(values.readings);
const BATCH = 5000;
const VEHICLES = 1000;

const folder = await mkdtemp(join(tmpdir(), 'slipdrift-bytes-'));
const server = await startEmbedded({ folder });
const { client, close } = openDatabase(server.url, { connections: 1 });
try {
  await client.unsafe('create extension pgstattuple');
  await makeReadings(client);
  for (const shape of byteShapes) {
    await fill(client, shape);
    await tell(client, shape.words);
    for (const fillfactor of shape.rewritten ?? []) {
      await client.unsafe(`alter index shaped_key set (fillfactor = ${fillfactor}); reindex table shaped`);
      await tell(client, `${shape.words}; index written anew, ${fillfactor} % full`);
    }
  }
} finally {
  await close();
  await server.stop();
  await rm(folder, { recursive: true, force: true });
}

/** A reading of each vehicle every four hours, with all but throttle, shifting and codes. */
async function makeReadings(sql: RawClient): Promise<void> {
  await sql.unsafe(`
    create unlogged table made as
    select i, (100 + i % ${VEHICLES})::int as vehicle,
      timestamptz '2026-01-05' + make_interval(hours => 4 * (i / ${VEHICLES})::int, secs => i % ${VEHICLES}) as at,
      (100000 + (i / ${VEHICLES}) * 35.5)::real as odometer_km,
      (10 + ((i::bigint * 7919) % 97) / 10.0)::real as slip_rpm, (60 + (i * 31) % 40)::real as duty_pct,
      (70 + (i * 17) % 30)::real as fluid_c, (20 + (i * 13) % 60)::real as load_pct,
      (15 + (i * 11) % 60)::real as torque_pct, (40 + (i * 5) % 50)::real as speed_kmh, 10::real as seconds,
      (4 + i % 3)::int2 as gear
    from generate_series(0, ${readings - 1}) i`);
  await sql.unsafe('create index on made (i)');
}

/** In batches as deliveries are stored, each by vehicle and time. */
async function fill(sql: RawClient, { columns, key, into, select, order }: Shape): Promise<void> {
  await sql.unsafe(`drop table if exists shaped; create table shaped (${columns})`);
  await sql.unsafe(`create unique index shaped_key on shaped (${key})`);
  const step = order === 'whole' ? readings : BATCH;
  for (let from = 0; from < readings; from += step) {
    const rows = `from made where i >= ${from} and i < ${from + step}`;
    await sql.unsafe(
      order === 'whole'
        ? `insert into shaped (${into}) select ${select} ${rows} group by 1, 2 order by 1, 2`
        : `insert into shaped (${into}) select ${select} ${rows} order by vehicle, at`,
    );
  }
  await sql.unsafe('vacuum analyze shaped');
}

async function tell(sql: RawClient, words: string): Promise<void> {
  const [size] = await sql.unsafe(`
    select pg_table_size('shaped') as heap, pg_relation_size('shaped_key') as index,
      (select round(avg_leaf_density) from pgstatindex('shaped_key')) as full`);
  const each = (bytes: unknown) => Math.round((10 * Number(bytes)) / readings) / 10;
  const value = { heap: each(size?.heap), index: each(size?.index), leaves_full_pct: Number(size?.full) };
  console.log(JSON.stringify({ figure: words, value, unit: 'bytes a reading' }));
}
