import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { MEASURE_KEY, measureDeliveries } from './measure-deliveries.ts';
import { measureList } from './measure-list.ts';
import { measurePayload } from './measure-payload.ts';
import { type Program, startProgram } from './start-program.ts';

/**
 * `npm run measure`: the figures of docs/measurements.md, one JSON line each. Starts the demo cold and warm in a
 * folder of its own, asks it, then a server on an empty folder for the deliveries. Takes some minutes; the machine
 * should have nothing else to do.
 */
const folder = await mkdtemp(join(tmpdir(), 'slipdrift-measure-'));
const tell = (figure: string, value: number | Record<string, number>, unit: string) =>
  console.log(JSON.stringify({ figure, value, unit }));

const stopped = async (program: Program, figure: string) => {
  tell(figure, Math.round(program.peakMiB()), 'MiB');
  await program.stop();
};

try {
  const cold = await startProgram(['demo', '--port', '4481'], folder);
  tell('demo, command to dashboard, first start', cold.seconds, 's');
  tell('demo, readings sent and stored', cold.seedSeconds ?? Number.NaN, 's');
  tell('assessment of the demo fleet, 240 vehicles of 14 months', cold.assessSeconds ?? Number.NaN, 's');
  await stopped(cold, 'peak memory of the server, demo seeding and assessment included');
  const warm = await startProgram(['demo', '--port', '4481'], folder);
  tell('demo, command to dashboard, second start', warm.seconds, 's');
  for (const { figure, value } of await measureList(warm.url)) tell(figure, value, 'ms');
  for (const { figure, value } of await measurePayload(warm.url)) tell(figure, value, 'kB');
  await stopped(warm, 'peak memory of the server, reading alone');
  const empty = await startProgram(['serve'], join(folder, 'empty'), {
    PORT: '4482',
    SLIPDRIFT_API_KEY: MEASURE_KEY,
  });
  for (const { figure, value, unit } of await measureDeliveries(empty.url)) tell(figure, value, unit);
  await stopped(empty, 'peak memory of the server, deliveries');
} finally {
  await rm(folder, { recursive: true, force: true });
}
