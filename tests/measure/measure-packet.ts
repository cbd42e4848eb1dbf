import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Packet } from '#server/contract/packets.ts';
import { type Ranking, ranking } from '#server/contract/ranking.ts';
import { signInToDemo } from '#tests/helpers/sign-in-demo.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { startProgram } from './start-program.ts';

/**
 * `npm run measure:packet`: how fast a packet opens, prints and takes a recorded road test, in a demo of its own. Times are
 * those of a caller on the same machine.
 */
const TIMES = 200;
const PRINTS = 10;
const HOUR_ROWS = 360_000;

const percentile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;

async function time(times: number, work: () => Promise<unknown>): Promise<string> {
  const taken: number[] = [];
  for (let i = 0; i < times; i += 1) {
    const startedMs = performance.now();
    await work();
    taken.push(performance.now() - startedMs);
  }
  taken.sort((a, b) => a - b);
  return `p50 ${percentile(taken, 0.5).toFixed(0)} ms, p99 ${percentile(taken, 0.99).toFixed(0)} ms`;
}

/** A steady cruise with a slipping clutch at 100 Hz. */
const hourOfTrace = (): string =>
  `time_s,throttle_pct,speed_kmh,slip_rpm,duty_pct\n${Array.from(
    { length: HOUR_ROWS },
    (_, i) =>
      `${(i / 100).toFixed(2)},${36 + (i % 7)},${82 + (i % 3)},${536 + ((i * 7) % 9)},${77 + (i % 3)}`,
  ).join('\n')}`;

const folder = makeTemporaryFolder();
const demo = await startProgram(['demo', '--fresh', '--port', '0'], join(folder, 'data'));
try {
  const { ask } = await signInToDemo(demo.url, 'admin');
  const read = async (path: string) => {
    const answer = await ask(path);
    if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
    return Buffer.from(await answer.arrayBuffer());
  };
  const { rows }: Ranking = ranking.parse(JSON.parse((await read('/api/ranking?limit=1')).toString()));
  const opened = await ask('/api/packets', 'POST', { vehicle: rows[0]?.vehicle });
  const { id } = (await opened.json()) as Packet;
  const report = (what: string, figures: string) => process.stdout.write(`${what}: ${figures}\n`);

  report('packet', await time(TIMES, () => read(`/api/packets/${id}`)));
  report('list of packets', await time(TIMES, () => read('/api/packets?limit=50')));
  const startedMs = performance.now();
  const first = await read(`/api/packets/${id}/packet.pdf`);
  report(
    'first PDF',
    `${(performance.now() - startedMs).toFixed(0)} ms, ${(first.length / 1000).toFixed(0)} kB`,
  );
  report('PDF', await time(PRINTS, () => read(`/api/packets/${id}/packet.pdf?size=letter`)));

  const trace = hourOfTrace();
  const sent = fetch(`${demo.url}/api/packets/${id}/road-test?name=hour.csv`, {
    method: 'POST',
    headers: { ...(await signInToDemo(demo.url, 'admin')).headers, 'content-type': 'text/csv' },
    body: trace,
  });
  const traceStartedMs = performance.now();
  let slowestMs = 0;
  let isJudged = false;
  const judged = sent.then((answer) => {
    isJudged = true;
    return answer;
  });
  // What others wait meanwhile.
  while (!isJudged) {
    const askedMs = performance.now();
    await fetch(`${demo.url}/health/live`);
    slowestMs = Math.max(slowestMs, performance.now() - askedMs);
  }
  const answer = await judged;
  if (!answer.ok) throw new Error(`the trace was answered ${answer.status}: ${await answer.text()}`);
  report(
    `trace of ${HOUR_ROWS.toLocaleString('en-US')} rows, ${(trace.length / 1e6).toFixed(1)} MB`,
    `${((performance.now() - traceStartedMs) / 1000).toFixed(1)} s; the slowest other answer meanwhile ${slowestMs.toFixed(0)} ms; peak memory ${demo.peakMiB().toFixed(0)} MiB`,
  );
} finally {
  await demo.stop();
  rmSync(folder, { recursive: true, force: true });
}
