import { pino } from 'pino';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { settleMonths } from '#server/services/storage/settle-months.ts';
import { BENCH_KEY, type BenchServer } from '#tests/bench/open-server.ts';
import { timed } from '#tests/bench/timing.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { storeMadePlaces } from '#tests/helpers/store-made-places.ts';
import { storeMadePlans } from '#tests/helpers/store-made-plans.ts';
import { copySamples } from './copy-samples.ts';
import { deliver } from './deliver.ts';
import { fillMonths } from './fill-months.ts';
import { type History, listHistory } from './made-history.ts';
import { waitForList } from './wait-for-list.ts';

const DAY_MS = 86_400_000;
/** Days of new data that may be delivered after the history. */
const DAYS_AFTER = 4;
/** A multiple of the three platforms: a copy has the platform of its sample. */
export const SAMPLES = 24;

export interface MadeFleet {
  history: History;
  /** filling readings in the database: rows and seconds */
  fill: { rows: number; seconds: number };
  /** learning all platforms and assessing every vehicle, from stored stretches to the list */
  firstAssessmentS: number;
}

export interface FleetSize {
  vehicles: number;
  readings: number;
  days: number;
}

/**
 * A fleet with its history: the samples deliver theirs over HTTP and the program makes their stretches; each other vehicle is
 * given readings and stretches of a sample, inside the database. Then the program learns, assesses and ranks all of them.
 */
export async function makeFleet(server: BenchServer, size: FleetSize): Promise<MadeFleet> {
  const { client, url } = server;
  const history: History = {
    ...size,
    samples: Math.min(SAMPLES, size.vehicles),
    endMs: Math.floor(Date.now() / DAY_MS - DAYS_AFTER) * DAY_MS,
  };
  const context = openContext(server);
  await storeMadePlaces(context);
  await client`
    insert into vehicles (unit, depot, platform, registered)
    select 'F-' || lpad(i::text, 5, '0'), 'depot-' || (i % 10), 'platform-' || (i % 3), true
    from generate_series(1, ${size.vehicles}::integer) i order by i`;
  for (let sample = 0; sample < history.samples; sample++) await deliver(url, listHistory(history, sample));
  await assess(url);
  await waitForList(client);
  await copySamples(client, history.samples);
  const seconds = await timed(() => fillMonths(server.databaseUrl, history.samples));
  await settle(server);
  await client`checkpoint`;
  await touch(server, 1);
  const firstAssessmentS = await timed(async () => {
    await assess(url);
    await waitForList(client);
  });
  await storeMadePlans(context, seededRandom(17).uniform);
  await client`vacuum analyze assessments`;
  return { history, fill: { rows: size.vehicles * size.readings, seconds }, firstAssessmentS };
}

/** As the upkeep leaves months that are over; it reads each slowly, so that others are answered, if it is not done before. */
export async function settle(server: BenchServer): Promise<void> {
  await server.client`vacuum (freeze, analyze)`;
  const { signal } = new AbortController();
  while ((await settleMonths(openContext(server), signal)).length > 0);
}

export const openContext = ({ db }: BenchServer): Context => ({
  db,
  now: () => new Date(),
  log: pino({ level: 'silent' }),
  actor: programActor('bench'),
});

async function assess(url: string): Promise<void> {
  const answer = await fetch(`${url}/api/assess`, {
    method: 'POST',
    headers: { authorization: `Bearer ${BENCH_KEY}`, 'content-type': 'application/json' },
    body: '{}',
  });
  if (answer.status !== 200)
    throw new Error(`POST /api/assess answered ${answer.status}: ${await answer.text()}`);
}

/** The first vehicles have something new at the end of what they reported. */
async function touch({ client }: BenchServer, vehicles: number): Promise<void> {
  await client`
    insert into touched_vehicles (vehicle, from_at, to_at)
    select vehicle, last_at, last_at from reading_spans where vehicle <= ${vehicles}
    on conflict do nothing`;
}
