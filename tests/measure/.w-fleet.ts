// usage: .w-fleet.ts <db> <vehicles> <days> <perDay>

import { readFileSync } from 'node:fs';
import { openDatabase } from '#db/client.ts';
import { migrateDatabase } from '#db/migrate.ts';

const base = readFileSync('/tmp/w/pg.log', 'utf8').trim();
const admin = openDatabase(base, { connections: 1 });
const [name = 'fleet', nText = '100', dText = '365', pText = '28'] = process.argv.slice(2);
await admin.client.unsafe(`drop database if exists ${name} with (force)`);
await admin.client.unsafe(`create database ${name}`);
await admin.close();
const url = base.replace('/slipdrift?', `/${name}?`);
await migrateDatabase(url);
const { db, client, close } = openDatabase(url);
const n = Number(nText),
  days = Number(dText),
  per = Number(pText);
const { withReadingMonths } = await import('#db/partitions.ts');
const end = new Date('2026-03-04T00:00:00Z');
const start = new Date(end.getTime() - days * 86400000);
const months = new Set<string>();
for (let t = start.getTime(); t <= end.getTime() + 3 * 86400000; t += 86400000)
  months.add(new Date(t).toISOString().slice(0, 7));
void withReadingMonths;
for (const m of months) {
  const [y, mo] = m.split('-').map(Number) as [number, number];
  const next = new Date(Date.UTC(y, mo, 1)).toISOString().slice(0, 10);
  await client.unsafe(
    `create table if not exists readings_${m.replace('-', '_')} partition of readings for values from ('${m}-01') to ('${next}')`,
  );
}
const { platformInput } = await import('#server/contract/fleet.ts');
const { platforms } = await import('#db/schema/fleet.ts');
for (const id of ['a', 'b', 'c']) {
  const i = platformInput.parse({ id, name: id });
  await db
    .insert(platforms)
    .values({
      id,
      name: id,
      limitRpm: i.limit_rpm,
      bandEdgesPct: i.band_edges_pct,
      reference: i.reference,
      gate: i.gate,
      costs: i.costs,
      referenceTorqueNm: 1200,
      lifeKm: 400000,
    });
}
await client.unsafe(
  `insert into vehicles (unit, platform, registered) select 'F-'||i, chr(97+i%3), true from generate_series(1,${n}) i`,
);
await client.unsafe(`select setseed(0.42)`);
await client.unsafe(`insert into readings (vehicle, at, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, speed_kmh, shifting)
 select v, '${start.toISOString()}'::timestamptz + make_interval(secs => k * ${86400 / per}),
   (20000 + v * 137 % 300000 + k * ${330 / per})::numeric(12,1), (12 + v%5 + case when v%13=0 then greatest(0, k - ${per * days * 0.6})*0.01 else 0 end + random()*4 - 2 + random()*2)::numeric(8,1), (45 + (k*37+v)%55)::real, (70 + random()*25)::numeric(5,1),
   (30 + random()*50)::numeric(4,1), (20+random()*50)::numeric(4,1), (50+random()*50)::numeric(4,1), random() < 0.02
 from generate_series(1,${n}) v, generate_series(0, ${per * days - 1}) k`);
await client.unsafe(
  `insert into reading_spans (vehicle, first_at, last_at, odometer_km) select distinct on (vehicle) vehicle, min(at) over w, max(at) over w, max(odometer_km) over w from readings window w as (partition by vehicle)`,
);
await client.unsafe(
  `insert into touched_vehicles (vehicle, from_at, to_at) select vehicle, first_at, last_at from reading_spans`,
);
await client.unsafe('analyze');
console.log(await client`select count(*) from readings`);
await close();
