import { openDatabase } from '#db/client.ts';
import type { BenchServer } from '#tests/bench/open-server.ts';
import type { Tell } from '#tests/bench/report.ts';
import { quantile } from '#tests/bench/timing.ts';
import { askAtOnce, CONNECTIONS, type Times } from './ask-at-once.ts';
import { askInTurn } from './ask-in-turn.ts';
import { listAsked } from './list-asked.ts';
import type { Headers } from './people.ts';

const REQUESTS = 2_400;
/** As the program's own pool has. */
const POOL = 10;

/** Answer times at 32 connections, as a planner and as a machine, beside those of HTTP alone and of PostgreSQL alone. */
export async function measureAnswers(
  server: BenchServer,
  who: { planner: Headers; machine: Headers },
  size: { vehicles: number; readings: number },
  scale: number,
  tell: Tell,
): Promise<void> {
  const requests = Math.max(320, Math.round(REQUESTS * Math.min(1, 10 * scale)));
  const fleet = `${size.vehicles} vehicles, ${size.readings} readings`;
  const database = await askDatabase(server.databaseUrl, requests);
  const bare = await askAtOnce(server.url, {}, ['/health/live'], requests);
  // A server is asked for weeks on end; its first answers take longer.
  const asked = listAsked(size.vehicles);
  for (const { paths } of asked) await askAtOnce(server.url, who.planner, paths, requests / 4);
  tell({
    figure: `select 1, ${CONNECTIONS} at once over ${POOL} connections, p99`,
    value: database.p99,
    unit: 'ms',
    reference: { what: `/health/live, ${CONNECTIONS} connections, p99`, value: bare.p99 },
  });
  for (const { name, paths, wanted } of asked)
    for (const [as, headers] of [
      ['a planner', who.planner],
      ['a machine key', who.machine],
    ] as const) {
      const found = await askAtOnce(server.url, headers, paths, requests);
      const alone = await askAtOnce(server.url, {}, ['/health/live'], requests);
      for (const share of ['p50', 'p99'] as const)
        tell({
          figure: `${name}, as ${as}, ${CONNECTIONS} connections, ${fleet}, ${share}`,
          value: found[share],
          unit: 'ms',
          reference: { what: `/health/live, ${CONNECTIONS} connections, ${share}`, value: alone[share] },
          ...(wanted === undefined || share === 'p50' ? {} : { wanted: { at_most: wanted } }),
        });
    }
  for (const one of await askInTurn(server.url, who.planner)) tell(one);
}

async function askDatabase(databaseUrl: string, requests: number): Promise<Times> {
  const { client, close } = openDatabase(databaseUrl, { connections: POOL });
  const times: number[] = [];
  let next = 0;
  const work = async () => {
    for (let turn = 0; next++ < requests; turn++) {
      const startedMs = performance.now();
      await client`select 1`;
      if (turn > 1) times.push(performance.now() - startedMs);
    }
  };
  try {
    await Promise.all(Array.from({ length: CONNECTIONS }, work));
  } finally {
    await close();
  }
  return { p50: quantile(times, 0.5), p99: quantile(times, 0.99) };
}
