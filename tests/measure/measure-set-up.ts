import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { callsTo } from '#tests/helpers/start-app.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';
import { startProgram } from './start-program.ts';

/**
 * `npm run measure:set-up`: 2,000 vehicles and 5,000 past failures from a file each, on a server of its own: seconds of the
 * dry run, of doing it and of the same file again, how long others waited meanwhile, and the peak of memory.
 */
const VEHICLES = 2000;
const FAILURES = 5000;
const say = (line: string) => process.stdout.write(`${line}\n`);

const { uniform: random } = seededRandom(20_261_126);
const units = Array.from({ length: VEHICLES }, (_, i) => `B-${1000 + i}`);
const vehicles = [
  'id,depot,platform,vin,retired',
  ...units.map(
    (unit, i) => `${unit},depot-${i % 8},bus-${i % 5},${String(10_000_000_000_000_000n + BigInt(i))},no`,
  ),
].join('\n');
const failures = [
  'vehicle;odometer_km;day;ended;mode;next_source;next_supplier;next_run_km',
  ...Array.from({ length: FAILURES }, (_, i) => {
    const km = 60_000 + Math.floor(i / VEHICLES) * 150_000 + Math.floor(random() * 90_000);
    const ended = random() < 0.8 ? 'failed' : 'preventive';
    return `${units[i % VEHICLES]};${km},5;${2015 + 3 * Math.floor(i / VEHICLES)}-06-${10 + (i % 20)};${ended};lining worn;rebuilt;Example works;0`;
  }),
].join('\n');

const server = await startProgram(['serve'], makeTemporaryFolder(), {
  PORT: '0',
  SLIPDRIFT_API_KEY: TEST_KEY,
});
try {
  const { get, post } = callsTo(server.url);
  await post(
    '/api/depots',
    Array.from({ length: 8 }, (_, i) => ({ id: `depot-${i}`, name: `Depot ${i}` })),
  );
  await post(
    '/api/platforms',
    Array.from({ length: 5 }, (_, i) => ({ id: `bus-${i}`, name: `Bus ${i}` })),
  );
  say(`at rest: peak ${Math.round(server.peakMiB())} MiB`);
  for (const [kind, text] of Object.entries({ vehicles, failures })) {
    say(`${kind}: ${text.split('\n').length - 1} lines, ${Math.round(text.length / 1024)} KiB`);
    for (const what of ['dry run', 'done', 'again']) {
      let isOver = false;
      const waits = (async () => {
        let longestMs = 0;
        while (!isOver) {
          const askedMs = performance.now();
          await (await get('/health/live')).arrayBuffer();
          longestMs = Math.max(longestMs, performance.now() - askedMs);
        }
        return longestMs;
      })();
      const startedMs = performance.now();
      const answer = await post(`/api/set-up/${kind}?dry_run=${what === 'dry run'}`, text, {
        'content-type': 'text/csv',
      });
      const reply = await answer.json();
      const seconds = (performance.now() - startedMs) / 1000;
      isOver = true;
      if (answer.status !== 200) throw new Error(JSON.stringify(reply).slice(0, 1000));
      say(
        `  ${what}: ${seconds.toFixed(1)} s, ${reply.created} created, ${reply.changed} changed, ${reply.unchanged} unchanged; others waited ${Math.round(await waits)} ms at most; peak ${Math.round(server.peakMiB())} MiB`,
      );
    }
  }
} finally {
  await server.stop();
}
