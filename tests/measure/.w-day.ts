// one more day of readings of every vehicle; usage: .w-day.ts <db> <day 0,1,...> <perDay>

import { readFileSync } from 'node:fs';
import { openDatabase } from '#db/client.ts';

const base = readFileSync('/tmp/w/pg.log', 'utf8').trim();
const [name = 'fleet', dText = '0', pText = '28'] = process.argv.slice(2);
const { client, close } = openDatabase(base.replace('/slipdrift?', `/${name}?`));
const start = new Date(Date.parse('2026-03-04T00:00:00Z') + Number(dText) * 86400000).toISOString();
const per = Number(pText);
await client.unsafe(`insert into readings (vehicle, at, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, speed_kmh, shifting)
 select s.vehicle, '${start}'::timestamptz + make_interval(secs => k * ${86400 / per}),
   (s.odometer_km + (k+1) * ${330 / per})::numeric(12,1), (12 + s.vehicle%5 + random()*4 - 2 + random()*2)::numeric(8,1), (45 + (k*37+s.vehicle)%55)::real, (70 + random()*25)::numeric(5,1),
   (30 + random()*50)::numeric(4,1), (20+random()*50)::numeric(4,1), (50+random()*50)::numeric(4,1), random() < 0.02
 from reading_spans s, generate_series(0, ${per - 1}) k`);
await client.unsafe(`insert into touched_vehicles (vehicle, from_at, to_at) select vehicle, '${start}', max(at) from readings where at >= '${start}' group by vehicle
 on conflict (vehicle) do update set to_at = excluded.to_at`);
await client.unsafe(
  `update reading_spans s set last_at = t.to_at, odometer_km = odometer_km + 330 from touched_vehicles t where t.vehicle = s.vehicle`,
);
console.log(await client`select count(*) from touched_vehicles`);
await close();
