import { askAtOnce } from '#tests/bench/answers/ask-at-once.ts';
import { addPlanner } from '#tests/bench/answers/people.ts';
import { bringDay } from '#tests/bench/assessment/measure-assessment.ts';
import { unitOf } from '#tests/bench/fleet/made-history.ts';
import { type FleetSize, makeFleet } from '#tests/bench/fleet/make-fleet.ts';
import { type BenchServer, openServer } from '#tests/bench/open-server.ts';
import { median } from '#tests/bench/timing.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import type { Cost, GrowthPoint } from './growth-point.ts';

/** New data are of so many vehicles, whatever the size: a hundred readings each of a day. */
const TOUCHED = 200;
const READINGS_OF_DAY = 100;
const DAYS = [0, 1, 2];
const REQUESTS = 400;

type Measured = { processorMs: number; clockMs: number };

/** What new data and answers cost in a fleet of this size, on a server of its own. */
export async function measureSize(
  folder: string,
  size: FleetSize,
): Promise<Pick<GrowthPoint, 'processorMs' | 'clockMs'>> {
  const server = await openServer(folder);
  try {
    const fleet = await makeFleet(server, size);
    const touched = Math.min(TOUCHED, size.vehicles);
    const brought = [];
    for (const day of DAYS) brought.push(await bringDay(server, fleet, day, touched, READINGS_OF_DAY));
    const rows = touched * READINGS_OF_DAY;
    const headers = await addPlanner(server);
    const { uniform } = seededRandom(5);
    const unit = () => unitOf(Math.floor(uniform() * size.vehicles));
    const asked = {
      list: ['/api/ranking?limit=100'],
      vehicle: Array.from({ length: 200 }, () => `/api/vehicles/${unit()}`),
      series: Array.from({ length: 200 }, () => `/api/vehicles/${unit()}/series`),
    };
    const found: Record<Cost, Measured> = {
      row: {
        processorMs: median(brought.map((one) => (1000 * one.deliveryProcessorS) / rows)),
        clockMs: median(brought.map((one) => (1000 * one.deliveryS) / rows)),
      },
      touched: {
        processorMs: median(brought.map((one) => (1000 * one.listProcessorS) / touched)),
        clockMs: median(brought.map((one) => (1000 * one.listS) / touched)),
      },
      list: await askFor(server, headers, asked.list),
      vehicle: await askFor(server, headers, asked.vehicle),
      series: await askFor(server, headers, asked.series),
    };
    const pick = (what: keyof Measured) =>
      Object.fromEntries(Object.entries(found).map(([name, one]) => [name, one[what]])) as Record<
        Cost,
        number
      >;
    return { processorMs: pick('processorMs'), clockMs: pick('clockMs') };
  } finally {
    await server.stop();
  }
}

async function askFor(
  { url, processorSeconds }: BenchServer,
  headers: Record<string, string>,
  paths: readonly string[],
): Promise<Measured> {
  await askAtOnce(url, headers, paths, REQUESTS / 4, 1);
  const before = processorSeconds();
  const { p50 } = await askAtOnce(url, headers, paths, REQUESTS, 1);
  return { processorMs: (1000 * (processorSeconds() - before)) / REQUESTS, clockMs: p50 };
}
