import { createReadStream } from 'node:fs';
import { mkdtemp, open, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readCanLog } from '#server/services/can-log/read-can-log.ts';
import { drive, type MadeFrame, makeFrame, toLogLine } from '#tests/helpers/can-frames.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';

/**
 * `npm run measure:can-log`: frames a second of one processor, from a file to the readings of its windows, and the peak of
 * memory. The log has one bus with 1,241 frames a second, as a bus of 250 kbit/s under a usual load: 191 of them carry
 * signals that are read, the others are of groups that are only counted.
 */
const MINUTES = Number(process.argv[2] ?? 70);
const OTHERS_A_SECOND = 1050;
const START_S = 1_767_607_200;

const folder = await mkdtemp(join(tmpdir(), 'slipdrift-measure-'));
const path = join(folder, 'drive.log');
let peakBytes = 0;
const watch = setInterval(() => {
  peakBytes = Math.max(peakBytes, process.memoryUsage().rss);
}, 50);
try {
  const frames = await writeLog();
  const { size } = await stat(path);
  for (let round = 0; round < 3; round++) {
    peakBytes = process.memoryUsage().rss;
    const startedMs = performance.now();
    const cpuBefore = process.cpuUsage();
    let readings = 0;
    const chunks = createReadStream(path, { highWaterMark: 262_144 });
    const options = { vehicle: 'T-1', startMs: null, windowS: 10, findUnits: async () => [] };
    for await (const lines of readCanLog(chunks, options)) readings += lines.length;
    const seconds = (performance.now() - startedMs) / 1000;
    const { user, system } = process.cpuUsage(cpuBefore);
    const cpuSeconds = (user + system) / 1_000_000;
    console.log(
      JSON.stringify({
        frames,
        mib: Math.round(size / 1_048_576),
        readings,
        seconds: Math.round(seconds * 100) / 100,
        frames_a_second: Math.round(frames / seconds),
        frames_a_second_of_processor: Math.round(frames / cpuSeconds),
        peak_mib: Math.round(peakBytes / 1_048_576),
      }),
    );
  }
} finally {
  clearInterval(watch);
  await rm(folder, { recursive: true, force: true });
}

/** Half of each minute with the lockup engaged; written a minute at a time. */
async function writeLog(): Promise<number> {
  const { uniform: random } = seededRandom(730_511);
  const file = await open(path, 'w');
  let frames = 0;
  for (let minute = 0; minute < MINUTES; minute++) {
    const fromS = START_S + minute * 60;
    const made: MadeFrame[] = [
      ...drive({ fromS, seconds: 30, lockup: 1, engineRpm: 1500, slipRpm: 12, odometerKm: 120_000 + minute }),
      ...drive({ fromS: fromS + 30, seconds: 30, lockup: 0, engineRpm: 1100, slipRpm: 250 }),
    ];
    for (let i = 0; i < OTHERS_A_SECOND * 60; i++) {
      const source = [0, 3, 11, 15, 23, 33, 49][i % 7] ?? 0;
      const bytes = Array.from({ length: 8 }, () => Math.floor(random() * 256));
      made.push(makeFrame(fromS + i / OTHERS_A_SECOND, 65_000 + (i % 60), source, bytes));
    }
    made.sort((a, b) => a.atS - b.atS);
    frames += made.length;
    await file.write(`${made.map(toLogLine).join('\n')}\n`);
  }
  await file.close();
  return frames;
}
