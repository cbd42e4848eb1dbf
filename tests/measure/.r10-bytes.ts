import { startEmbedded } from '#db/embedded/start-embedded.ts';
import { openDatabase } from '#db/client.ts';
const server = await startEmbedded({ folder: '/tmp/r10/pg' });
const { client, close } = openDatabase(server.url, { connections: 1 });
const sql = (t: string) => client.unsafe(t);
await sql('create extension if not exists pgstattuple');
const base = `at timestamptz not null, vehicle int not null, odometer_km real not null, slip_rpm real not null, duty_pct real not null, fluid_c real, load_pct real, torque_pct real, throttle_pct real, speed_kmh real, seconds real, gear int2, shifting boolean, codes text[], arrived_at timestamptz`;
await sql('drop table if exists src');
await sql(`create unlogged table src as select i, (100 + i % 1000)::int as vehicle, timestamptz '2026-01-05' + make_interval(hours => 4 * (i/1000)::int, secs => i % 1000) as at,
 (100000 + (i/1000) * 35.5)::real odometer_km, (10 + ((i::bigint*7919)%97)/10.0)::real slip_rpm, (60 + (i*31)%40)::real duty_pct, (70+(i*17)%30)::real fluid_c, (20+(i*13)%60)::real load_pct, (15+(i*11)%60)::real torque_pct, (40+(i*5)%50)::real speed_kmh, 10::real seconds, (4+i%3)::int2 gear from generate_series(0, 499999) i`);
const rows: string[] = [];
async function look(name: string, table: string, n = 500000) {
  const [s] = await sql(`select pg_relation_size('${table}') heap, coalesce((select sum(pg_relation_size(indexrelid)) from pg_index where indrelid='${table}'::regclass),0)::bigint idx, pg_total_relation_size('${table}') total`);
  const [ix] = await sql(`select indexrelid::regclass::text name from pg_index where indrelid='${table}'::regclass limit 1`);
  const [d] = ix ? await sql(`select avg_leaf_density d from pgstatindex('${ix.name}')`) : [{ d: null }];
  rows.push([name, (Number(s!.heap) / n).toFixed(1), (Number(s!.idx) / n).toFixed(1), (Number(s!.total) / n).toFixed(1), d!.d === null ? '' : String(d!.d)].join(' | '));
  console.log(rows.at(-1));
}
const cols = 'vehicle, at, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, speed_kmh, seconds, gear';
async function fill(table: string, list: string, select: string, step = 5000, order = 'vehicle, at') {
  for (let from = 0; from < 500000; from += step)
    await sql(`insert into ${table} (${list}) select ${select} from src where i >= ${from} and i < ${from + step} order by ${order}`);
  await sql(`vacuum analyze ${table}`);
}
await sql('create index if not exists src_i on src (i)');
for (const [name, step] of [['as it is, 5 of a vehicle a batch', 5000], ['as it is, 1 of a vehicle a batch', 1000], ['as it is, 20 vehicles a batch, 200 each', 0]] as const) {
  await sql('drop table if exists a'); await sql(`create table a (${base}, primary key (vehicle, at))`);
  if (step > 0) await fill('a', cols, cols, step);
  else { for (let v = 0; v < 1000; v += 20) for (let t = 0; t < 500; t += 250) await sql(`insert into a (${cols}) select ${cols} from src where i % 1000 >= ${v} and i % 1000 < ${v + 20} and i/1000 >= ${t} and i/1000 < ${t + 250} order by vehicle, at`); await sql('vacuum analyze a'); }
  await look(name, 'a');
  await sql('reindex table a'); await look(`${name}, reindexed`, 'a');
}
await sql(`alter index a_pkey set (fillfactor = 100)`); await sql('reindex table a'); await look('as it is, reindexed at fillfactor 100', 'a');
await sql('drop table if exists a2'); await sql(`create table a2 (${base}, primary key (vehicle, at))`); await fill('a2', cols + ', arrived_at', cols + ', now()'); await look('with the moment of arrival (late)', 'a2');
await sql('drop table if exists a3'); await sql(`create table a3 (${base}, primary key (vehicle, at))`); await fill('a3', cols + ', throttle_pct, shifting', cols + ', 5, false'); await look('with throttle and shifting', 'a3');
await sql('drop table if exists c'); await sql(`create table c (vehicle int not null, odometer_km real not null, at timestamptz not null, arrived_at timestamptz, slip_rpm real not null, duty_pct real not null, fluid_c real, load_pct real, torque_pct real, throttle_pct real, speed_kmh real, seconds real, gear int2, shifting boolean, codes text[], primary key (vehicle, at))`); await fill('c', cols, cols); await look('columns in another order', 'c');
await sql('drop table if exists d'); await sql(`create table d (at timestamptz not null, vehicle int not null, odometer_km real not null, slip_rpm real not null, duty_pct real not null, fluid_c real not null, load_pct real not null, torque_pct real not null, speed_kmh real not null, seconds real not null, gear int2 not null, primary key (vehicle, at))`); await fill('d', cols, cols); await look('nothing null: rare columns in a table of their own', 'd');
const two = 'fluid_c int2, load_pct int2, torque_pct int2, throttle_pct int2, speed_kmh int2, seconds int2, gear int2, shifting boolean, codes text[], arrived_at timestamptz';
await sql('drop table if exists e'); await sql(`create table e (at timestamptz not null, vehicle int not null, odometer_km real not null, slip_rpm int2 not null, duty_pct int2 not null, ${two}, primary key (vehicle, at))`);
const sel2 = 'vehicle, at, odometer_km, (slip_rpm*10)::int2, (duty_pct*100)::int2, (fluid_c*100)::int2, (load_pct*100)::int2, (torque_pct*100)::int2, (speed_kmh*100)::int2, (seconds*10)::int2, gear';
await fill('e', cols, sel2); await look('2-byte figures', 'e'); await sql('reindex table e'); await look('2-byte figures, reindexed', 'e');
await sql('drop table if exists f'); await sql(`create table f (at timestamptz not null, vehicle int not null, odometer_km real not null, slip_rpm int2 not null, duty_pct int2 not null, fluid_c int2 not null, load_pct int2 not null, torque_pct int2 not null, speed_kmh int2 not null, seconds int2 not null, gear int2 not null, primary key (vehicle, at))`);
await fill('f', cols, sel2); await look('2-byte figures, nothing null', 'f'); await sql('reindex table f'); await look('2-byte figures, nothing null, reindexed', 'f');
await sql('alter index f_pkey set (fillfactor=100)'); await sql('reindex table f'); await look('the same at fillfactor 100', 'f');
await sql('drop table if exists g'); await sql(`create table g (${base})`); await sql(`create unique index g_key on g ((vehicle::bigint << 32 | ((extract(epoch from at at time zone 'UTC') * 1000)::bigint - 1767225600000)))`); await fill('g', cols, cols); await look('one 8-byte key instead of two columns', 'g'); await sql('reindex table g'); await look('one 8-byte key, reindexed', 'g');
for (const [name, by, method] of [['packed by vehicle and day', "date_trunc('day', at)", 'pglz'], ['packed by vehicle and month', "date_trunc('month', at)", 'pglz'], ['packed by vehicle and month, lz4', "date_trunc('month', at)", 'lz4']] as const) {
  await sql('drop table if exists p');
  const arr = ['at_ms int8[]', 'odometer_km real[]', 'slip_rpm real[]', 'duty_pct real[]', 'fluid_c real[]', 'load_pct real[]', 'torque_pct real[]', 'throttle_pct real[]', 'speed_kmh real[]', 'seconds real[]', 'gear int2[]'];
  try { await sql(`create table p (vehicle int, span timestamptz, ${arr.map((c) => c.replace('[]', '[] compression ' + method)).join(', ')}, primary key (vehicle, span)) with (toast_tuple_target = 128)`); } catch (e) { console.log(name, String(e)); continue; }
  await sql(`insert into p select vehicle, ${by}, array_agg((extract(epoch from at)*1000)::int8 order by at), ${['odometer_km', 'slip_rpm', 'duty_pct', 'fluid_c', 'load_pct', 'torque_pct'].map((c) => `array_agg(${c} order by at)`).join(', ')}, null, array_agg(speed_kmh order by at), array_agg(seconds order by at), array_agg(gear order by at) from src group by 1, 2 order by 1, 2`);
  await sql('vacuum analyze p');
  const [t] = await sql(`select pg_total_relation_size('p') t, (select count(*) from p) n`); rows.push(`${name} | | | ${(Number(t!.t) / 500000).toFixed(1)} | rows ${t!.n}`); console.log(rows.at(-1));
}
await close(); await server.stop();
