// usage: .w-run.ts <db> <clock iso> : one run, with processor time of node and of PostgreSQL's backends

import { readdirSync, readFileSync } from 'node:fs';
import { pino } from 'pino';
import { openDatabase } from '#db/client.ts';
import { programActor } from '#server/services/actor.ts';
import { bringUpToDate } from '#server/services/assessment/bring-up-to-date.ts';

const base = readFileSync('/tmp/w/pg.log', 'utf8').trim();
const [name = 'fleet', clock = '2026-03-04T00:00:00Z', learn = ''] = process.argv.slice(2);
const { db, client, close } = openDatabase(base.replace('/slipdrift?', `/${name}?`));
const pgCpu = () => {
  let sum = 0;
  for (const pid of readdirSync('/proc').filter((p) => /^\d+$/.test(p))) {
    try {
      const cmd = readFileSync(`/proc/${pid}/cmdline`, 'utf8');
      if (!cmd.includes('postgres: slipdrift ' + name + ' ')) continue;
      const st = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
      sum += (Number(st[11]) + Number(st[12])) * 10;
    } catch {}
  }
  return sum;
};
const ctx = { db, now: () => new Date(clock), log: pino({ level: 'silent' }), actor: programActor('test') };
await Promise.all(Array.from({ length: 8 }, () => client`select pg_sleep(0.05)`));
const p0 = pgCpu();
const t = performance.now();
const c = process.cpuUsage();
const n = await bringUpToDate(ctx, { learn: learn === 'learn' });
const u = process.cpuUsage(c);
console.log(
  JSON.stringify({
    assessed: n,
    wallMs: Math.round(performance.now() - t),
    nodeMs: Math.round((u.user + u.system) / 1000),
    pgMs: pgCpu() - p0,
    rss: Math.round(process.memoryUsage.rss() / 1e6),
  }),
);
await close();
