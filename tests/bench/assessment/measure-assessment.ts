import { setTimeout as sleep } from 'node:timers/promises';
import type { RawClient } from '#db/client.ts';
import { deliver } from '#tests/bench/fleet/deliver.ts';
import { listDayAfter } from '#tests/bench/fleet/made-history.ts';
import { type MadeFleet, openContext } from '#tests/bench/fleet/make-fleet.ts';
import { waitForList } from '#tests/bench/fleet/wait-for-list.ts';
import { type BenchServer, openServer } from '#tests/bench/open-server.ts';
import type { Tell } from '#tests/bench/report.ts';
import { timed } from '#tests/bench/timing.ts';
import { assessOnThreads, collectVehicles } from './assess-on-threads.ts';

const IN_MEMORY = 240;
/** One in ten of the fleet. */
const SOME = 0.1;

export interface Brought {
  deliveryS: number;
  /** of program and PostgreSQL */
  deliveryProcessorS: number;
  /** from the last acknowledgement to the list, the pause that is waited for included */
  listS: number;
  listProcessorS: number;
}

const A_DAY = 6;
const LONGEST_REST_S = 300;

/** Assessment of a fleet with twelve months of stretches: all of it, from memory, and after a day of new data. */
export async function measureAssessment(folder: string, fleet: MadeFleet, tell: Tell): Promise<void> {
  const { vehicles } = fleet.history;
  const some = Math.max(1, Math.round(vehicles * SOME));
  await onServer(folder, 1, async (server) => {
    const copied = await timed(() => copyOut(server.client));
    const reference = { what: 'COPY of their stretches out of the database', value: vehicles / copied };
    tell({
      figure: `assessment, ${vehicles} vehicles learned and assessed, from stored stretches to the list, usual number of workers`,
      value: vehicles / fleet.firstAssessmentS,
      unit: 'vehicles/s',
      reference,
    });
    const platforms = await collectVehicles(openContext(server), IN_MEMORY);
    for (const threads of [1, 2])
      tell({
        figure: `assessment, from stretches in memory, ${threads === 1 ? 'one thread' : 'two threads'}`,
        value: await assessOnThreads(platforms, Math.min(vehicles, 2_000), threads),
        unit: 'vehicles/s',
        reference,
      });
    await tellDay(server, fleet, 0, some, 1, tell);
    await tellDay(server, fleet, 1, vehicles, 1, tell);
  });
  await onServer(folder, 2, async (server) => {
    await tellDay(server, fleet, 2, some, 2, tell);
    await tellDay(server, fleet, 3, vehicles, 2, tell);
  });
}

async function onServer(
  folder: string,
  workers: number,
  work: (server: BenchServer) => Promise<void>,
): Promise<void> {
  const server = await openServer(folder, { SLIPDRIFT_WORKERS: String(workers) });
  try {
    await waitForList(server.client);
    await work(server);
  } finally {
    await server.stop();
  }
}

/** Against the time in which the stretches of all vehicles are copied out at that moment. */
async function tellDay(
  server: BenchServer,
  fleet: MadeFleet,
  day: number,
  touched: number,
  workers: number,
  tell: Tell,
): Promise<void> {
  const copied = await timed(() => copyOut(server.client));
  const found = await bringDay(server, fleet, day, touched, A_DAY);
  const whose = `${A_DAY} readings each of ${touched} vehicles of ${fleet.history.vehicles}`;
  const name = `a day of new data, ${whose}, ${workers === 1 ? 'one worker' : 'two workers'}`;
  tell({
    figure: `assessment after ${name}, until the list is up to date`,
    value: found.listS,
    unit: 's',
    reference: { what: 'COPY of the stretches of all vehicles out of the database', value: copied },
    wanted: { at_most: 20 },
  });
  tell({ figure: `delivery of ${name}`, value: found.deliveryS, unit: 's' });
  tell({
    figure: `processor time of program and PostgreSQL for ${name}`,
    value: (1000 * (found.deliveryProcessorS + found.listProcessorS)) / touched,
    unit: 'ms a vehicle',
  });
}

/** Delivers a day of readings of the first vehicles and waits for the list; fails where others were assessed, or fewer. */
export async function bringDay(
  server: BenchServer,
  { history }: MadeFleet,
  day: number,
  vehicles: number,
  readings: number,
): Promise<Brought> {
  const { client, url, processorSeconds } = server;
  await waitForRest(server);
  await client`checkpoint`;
  const [before] = await client<{ at: Date }[]>`select clock_timestamp() as at`;
  const atStart = processorSeconds();
  const { stored, seconds: deliveryS } = await deliver(url, listDayAfter(history, day, vehicles, readings));
  if (stored !== readings * vehicles)
    throw new Error(`of ${readings * vehicles} new readings ${stored} were stored`);
  const atDelivered = processorSeconds();
  const listS = await timed(() => waitForList(client));
  const [row] = await client<{ n: number }[]>`
    select count(*)::int as n from assessments where as_of >= ${before?.at ?? null}`;
  if (row?.n !== vehicles) throw new Error(`${vehicles} vehicles were touched, ${row?.n} assessed`);
  return {
    deliveryS,
    deliveryProcessorS: atDelivered - atStart,
    listS,
    listProcessorS: processorSeconds() - atDelivered,
  };
}

/** Weeks of use are made after the list, and what was written is tidied away: neither belongs to the next day. */
async function waitForRest({ processorSeconds }: BenchServer): Promise<void> {
  let before = processorSeconds();
  for (let waitedS = 1; waitedS <= LONGEST_REST_S; waitedS++) {
    await sleep(1_000);
    const now = processorSeconds();
    if (now - before < 0.1) return;
    before = now;
  }
  throw new Error(`the server is not at rest after ${LONGEST_REST_S} s`);
}

async function copyOut(client: RawClient): Promise<void> {
  for await (const _ of await client`copy stretches to stdout (format binary)`.readable());
}
