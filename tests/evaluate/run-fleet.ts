import { type RankingRow, ranking } from '#server/contract/ranking.ts';
import { deliveryReply } from '#server/contract/receipts.ts';
import type { SimulatedFleet } from './fleet/simulated-fleet.ts';
import { followPlainRules, type PlainLists, type RawReading } from './plain-rules.ts';
import type { Program } from './start-program.ts';

/** What the list said at one moment, and what the plain rules said. */
export interface Look {
  ms: number;
  rows: RankingRow[];
  plain: PlainLists;
}

const DAY_MS = 86_400_000;
/** Lines that go in with one request. */
const LINES = 20_000;

/**
 * Lives a fleet's history through the program: readings and reported lives in order of arrival, an assessment at every
 * look, and the list as anyone would read it.
 *
 * @param daysBetween days between looks, the last of which is at the end; without it there is only that one
 */
export async function runFleet(
  program: Program,
  fleet: SimulatedFleet,
  daysBetween = Number.POSITIVE_INFINITY,
): Promise<Look[]> {
  program.setClock(fleet.fromMs);
  for (const [path, bodies] of [
    ['/api/platforms', fleet.platforms],
    ['/api/depots', fleet.depots],
    ['/api/vehicles', fleet.vehicles],
  ] as const)
    if (bodies.length > 0) await program.post(path, bodies);

  const plain = followPlainRules(new Map(fleet.truth.map((one) => [one.unit, one.limitRpm])));
  const lives = [...fleet.lives].sort((a, b) => a.atMs - b.atMs);
  const looks: Look[] = [];
  let waiting: object[] = [];
  const deliver = async () => {
    if (waiting.length === 0) return;
    const { refused } = deliveryReply.parse(await program.post('/api/readings', waiting));
    if (refused > 0) throw new Error(`${fleet.name}: ${refused} readings were refused`);
    waiting = [];
  };
  const look = async (ms: number) => {
    await deliver();
    program.setClock(ms);
    await program.post('/api/assess', {});
    const { rows } = ranking.parse(await program.get('/api/ranking?limit=1000'));
    looks.push({ ms, rows, plain: plain.list() });
  };
  let next = fleet.fromMs + daysBetween * DAY_MS;
  for (const { atMs, readings } of fleet.arrivals) {
    while (next < atMs && next < fleet.toMs) {
      await look(next);
      next += daysBetween * DAY_MS;
    }
    for (let life = lives[0]; life !== undefined && life.atMs <= atMs; life = lives[0]) {
      await deliver();
      await program.post('/api/lives', life.life);
      lives.shift();
    }
    program.setClock(atMs);
    for (const reading of readings) plain.take(reading as RawReading);
    waiting.push(...readings);
    if (waiting.length >= LINES) await deliver();
  }
  await look(fleet.toMs);
  return looks;
}
