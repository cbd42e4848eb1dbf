import { setTimeout as sleep } from 'node:timers/promises';
import { openDatabase, type RawClient } from '#db/client.ts';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { startEmbedded } from '#db/embedded/start-embedded.ts';
import { serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { createLoad, type Load } from './drive-load.ts';
import { expectOf, LINES, listUnits, SENDERS, unitOf } from './fleet-feed.ts';
import { judgeMemory, type MemoryTrend } from './judge-memory.ts';
import { countConnections, measureTables, type Sample, startSampling } from './sample-server.ts';

const KEY = 'soak-key-of-a-test';
const DAY_MS = 86_400_000;
/** The fleet's clock runs some two thousand times faster than ours and must not pass it. */
const FEED_DAYS = 60;
const FEED_FASTER = 6000;
const LOAD_SHARE = 0.8;
/** An assessment of the whole fleet may still run; on a busy machine that takes minutes. */
const SETTLE_S = 300;

export interface SoakPlan {
  warmUpS: number;
  peakS: number;
  loadS: number;
  sampleEveryS: number;
}

export interface SoakReport {
  minutes: number;
  peakLinesPerS: number;
  plannedLinesPerS: number;
  deliveredLinesPerS: number;
  /** how far a delivery lay behind its time at the most, s */
  latestS: number;
  acknowledgedLines: number;
  /** lines acknowledged and not there, and lines there more than once or never acknowledged */
  missingLines: number;
  surplusLines: number;
  errors: string[];
  latencies: Record<string, { n: number; p50Ms: number; p99Ms: number }>;
  rss: MemoryTrend;
  heap: MemoryTrend;
  connections: { most: number; mostWaiting: number; atEnd: number; activeAtEnd: number };
  tablesMiB: { before: Record<string, number>; after: Record<string, number> };
  exitCode: number | string;
  samples: Sample[];
}

/**
 * Serves from a PostgreSQL of its own, measures the peak, then delivers at 80 % of it while people read, watching
 * memory and connections, and at last compares what is stored with what was acknowledged.
 */
export async function runSoak(plan: SoakPlan, say: (what: string) => void = () => {}): Promise<SoakReport> {
  const folder = makeTemporaryFolder();
  const postgres = await startEmbedded({ folder });
  const { client, close } = openDatabase(postgres.url, { connections: 1 });
  await client`set application_name to 'soak'`;
  try {
    return await soak(plan, postgres.url, client, say);
  } finally {
    await close();
    await postgres.stop();
    removeStorage(folder);
  }
}

async function soak(plan: SoakPlan, databaseUrl: string, client: RawClient, say: (what: string) => void) {
  const program = await serveSlipdrift({
    DATABASE_URL: databaseUrl,
    SLIPDRIFT_API_KEY: KEY,
    SLIPDRIFT_KEEP_READINGS_MONTHS: '0',
  });
  const headers = { authorization: `Bearer ${KEY}` };
  const server = { pid: program.child.pid ?? 0, url: program.url, headers };
  try {
    await setUp(program.url, headers);
    const startMs = Date.now() - FEED_DAYS * DAY_MS - plan.loadS * 1000 * FEED_FASTER;
    const load = createLoad(program.url, headers, startMs);
    say(`warming up for ${plan.warmUpS} s, then measuring the peak for ${plan.peakS} s`);
    await load.run(plan.warmUpS, null);
    const { linesPerS: peak } = await load.run(plan.peakS, null);
    load.forget();
    const planned = LOAD_SHARE * peak;
    say(`peak ${Math.round(peak)} lines/s; delivering ${Math.round(planned)} lines/s for ${plan.loadS} s`);
    const before = await measureTables(client);
    const sampling = startSampling(server, client, plan.sampleEveryS);
    const stopTelling = tellEachMinute(load, say);
    const { linesPerS: delivered } = await load.run(plan.loadS, planned);
    stopTelling();
    const samples = await sampling.stop();
    const { connections, active } = await settle(client);
    const after = await measureTables(client);
    say('comparing what is stored with what was acknowledged');
    const stored = await compareStored(client, load, startMs);
    const exitCode = await program.kill('SIGTERM');
    return {
      minutes: plan.loadS / 60,
      peakLinesPerS: Math.round(peak),
      plannedLinesPerS: Math.round(planned),
      deliveredLinesPerS: Math.round(delivered),
      latestS: Math.round(load.latestMs()) / 1000,
      acknowledgedLines: countLines(load),
      ...stored,
      errors: [...load.errors, ...sampling.errors],
      latencies: summarise(load.latencies),
      rss: judgeMemory(
        samples.map(({ atS, rssMiB }) => ({ atS, valueMiB: rssMiB })),
        'median',
      ),
      heap: judgeMemory(
        samples.map(({ atS, heapMiB }) => ({ atS, valueMiB: heapMiB })),
        'least',
      ),
      connections: {
        most: Math.max(...samples.map((one) => one.connections)),
        mostWaiting: Math.max(...samples.map((one) => one.waiting)),
        atEnd: connections,
        activeAtEnd: active,
      },
      tablesMiB: { before, after },
      exitCode,
      samples,
    };
  } finally {
    if (program.child.exitCode === null) await program.kill('SIGKILL');
  }
}

async function setUp(url: string, headers: Record<string, string>): Promise<void> {
  const post = async (path: string, body: unknown) => {
    const init = { method: 'POST', headers: { ...headers, 'content-type': 'application/json' } };
    const answer = await fetch(url + path, { ...init, body: JSON.stringify(body) });
    if (answer.status !== 200) throw new Error(`POST ${path}: ${await answer.text()}`);
  };
  await post('/api/depots', { id: 'yard', name: 'Yard', bays: 3 });
  await post('/api/platforms', { id: 'type-s', name: 'Type S', limit_rpm: 150 });
  await post(
    '/api/vehicles',
    listUnits().map((id) => ({ id, platform: 'type-s', depot: 'yard' })),
  );
}

/** Lines a second in each minute: where a rate falls, it shows from when. */
function tellEachMinute(load: Load, say: (what: string) => void): () => void {
  let before = countLines(load);
  const timer = setInterval(() => {
    const now = countLines(load);
    say(`${Math.round((now - before) / 60)} lines/s in the last minute`);
    before = now;
  }, 60_000);
  return () => clearInterval(timer);
}

const countLines = (load: Load) => load.acknowledged.reduce((sum, n) => sum + n, 0) * LINES;

/** Once nothing is delivered, the last assessment ends and every connection goes idle. */
async function settle(client: RawClient) {
  let found = await countConnections(client);
  for (let i = 0; i < SETTLE_S && found.active + found.waiting > 0; i += 1) {
    await sleep(1000);
    found = await countConnections(client);
  }
  return found;
}

async function compareStored(client: RawClient, load: Load, startMs: number) {
  const rows = await client`
    select unit, count(*) as n, count(distinct at) as times, min(at) as first, max(at) as last
    from readings join vehicles on vehicles.key = readings.vehicle group by unit`;
  const found = new Map(rows.map((row) => [String(row.unit), row]));
  let missingLines = 0;
  let surplusLines = 0;
  for (let sender = 0; sender < SENDERS; sender += 1)
    for (let vehicle = 0; vehicle < listUnits().length / SENDERS; vehicle += 1) {
      const expected = expectOf(vehicle, load.acknowledged[sender] ?? 0, startMs);
      const row = found.get(unitOf(sender, vehicle));
      const times = Number(row?.times ?? 0);
      const whole = row?.first?.getTime() === expected.firstMs && row?.last?.getTime() === expected.lastMs;
      missingLines += Math.max(0, expected.readings - times, whole ? 0 : 1);
      surplusLines += Number(row?.n ?? 0) - times + Math.max(0, times - expected.readings);
    }
  return { missingLines, surplusLines };
}

function summarise(latencies: Map<string, number[]>): SoakReport['latencies'] {
  return Object.fromEntries(
    [...latencies].map(([name, times]) => {
      const sorted = times.toSorted((a, b) => a - b);
      const at = (share: number) =>
        Math.round((sorted[Math.ceil(share * sorted.length) - 1] ?? Number.NaN) * 10) / 10;
      return [name, { n: sorted.length, p50Ms: at(0.5), p99Ms: at(0.99) }];
    }),
  );
}
