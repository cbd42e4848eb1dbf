import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { measureList } from './measure-list.ts';
import { type Program, startProgram } from './start-program.ts';

/**
 * `npm run measure`: how long the demo takes to start, cold and warm, in a folder of its own, and what it answers, one JSON
 * line a figure. Takes a minute or two; the machine should have nothing else to do.
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
  await stopped(warm, 'peak memory of the server, reading alone');
} finally {
  await rm(folder, { recursive: true, force: true });
}
