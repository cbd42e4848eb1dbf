import { readFileSync } from 'node:fs';
import { pino } from 'pino';
import { openDatabase } from '#db/client.ts';
import { migrateDatabase } from '#db/migrate.ts';
import { programActor } from '#server/services/actor.ts';
import { bringUpToDate } from '#server/services/assessment/bring-up-to-date.ts';

const base = readFileSync('/tmp/w/pg.log', 'utf8').trim();
const admin = openDatabase(base, { connections: 1 });
const name = process.argv[2] ?? 'plain';
await admin.client.unsafe(`drop database if exists ${name} with (force)`);
await admin.client.unsafe(`create database ${name}`);
await admin.close();
const url = base.replace('/slipdrift?', `/${name}?`);
await migrateDatabase(url);
const { db, client, close } = openDatabase(url);
const { toReading } = await import('#server/contract/readings.ts');
const { drivePlainly } = await import('#tests/helpers/drive-plainly.ts');
const { plainFleet, plainEnd } = await import('#tests/helpers/send-plain-fleet.ts');
const { storeBatch } = await import('#server/services/intake/store-batch.ts');
const { newBatch } = await import('#server/services/intake/batch.ts');
const days = 100;
const readings = drivePlainly(plainFleet, new Date(plainEnd.getTime() - days * 86_400_000), days, 21).map(
  (r) => toReading(r as never),
);
console.log('readings', readings.length);
const owner = {
  receipt: '00000000-0000-4000-8000-000000000000',
  sender: 'program:test',
  earlierTo: null,
  arrivedAt: plainEnd,
};
for (let i = 0; i < readings.length; i += 5000) {
  const part = readings.slice(i, i + 5000);
  await storeBatch(
    db,
    owner,
    { ...newBatch(new Map()), received: part.length, readings: part } as never,
    async () => {},
  );
}
console.log('stored');
const ctx = { db, now: () => plainEnd, log: pino({ level: 'silent' }), actor: programActor('test') };
const t = performance.now();
const c = process.cpuUsage();
console.log(
  'assessed',
  await bringUpToDate(ctx, { learn: true }),
  performance.now() - t,
  process.cpuUsage(c),
);
console.log(
  await client`select next, count(*) from claimed_vehicles group by 1`,
  await client`select count(*) from touched_vehicles`,
);
console.log(await client`select count(*), sum(n) from stretches`);
console.log('again', await bringUpToDate(ctx, { learn: true }));
await close();
