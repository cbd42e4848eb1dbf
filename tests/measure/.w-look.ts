import { readFileSync } from 'node:fs';
import { openDatabase } from '#db/client.ts';

const base = readFileSync('/tmp/w/pg.log', 'utf8').trim();
const { client, close } = openDatabase(base.replace('/slipdrift?', `/${process.argv[2]}?`));
for (const r of await client.unsafe(
  `select pid, state, wait_event_type, wait_event, left(regexp_replace(query, '\\s+', ' ', 'g'), 150) q, now()-query_start d from pg_stat_activity where datname='${process.argv[2]}' and pid<>pg_backend_pid()`,
))
  console.log(JSON.stringify(r));
console.log(
  await client`select next, claimed_by, count(*) from claimed_vehicles group by 1,2`,
  await client`select count(*) from touched_vehicles`,
);
await close();
