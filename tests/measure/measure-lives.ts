import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { makeLives } from '#tests/helpers/make-lives.ts';
import { startProgram } from './start-program.ts';

/**
 * `npm run measure:lives`: what `POST /api/analysis/lives` takes over HTTP, one JSON line a figure. Lives are made: three groups,
 * two modes, three exposures, mileages all different. Another request is made all the while, to see how long it waits.
 */
const KEY = 'measure-lives-key-000000000000';
const CALLS = 7;

const tell = (figure: string, value: number, unit: string) =>
  console.log(JSON.stringify({ figure, value: Math.round(value * 100) / 100, unit }));

const folder = await mkdtemp(join(tmpdir(), 'slipdrift-measure-'));
const program = await startProgram(['serve', '--port', '0'], folder, { SLIPDRIFT_API_KEY: KEY });
try {
  for (const size of [1000, 10_000, 100_000]) await measure(size);
  tell('peak memory', program.peakMiB(), 'MiB');
} finally {
  await program.stop();
  removeStorage(folder);
  await rm(folder, { recursive: true, force: true });
}

async function measure(size: number): Promise<void> {
  const body = JSON.stringify({ lives: makeLives(size) });
  tell(`${size} lives: body`, body.length / 1024 / 1024, 'MiB');
  const seconds: number[] = [];
  const waits: number[] = [];
  for (let call = 0; call < CALLS; call++) {
    const isDone = { yet: false };
    const others = watchOthers(isDone, waits);
    const started = performance.now();
    const answer = await fetch(`${program.url}/api/analysis/lives`, {
      method: 'POST',
      headers: { authorization: `Bearer ${KEY}`, 'content-type': 'application/json' },
      body,
    });
    const text = await answer.text();
    seconds.push((performance.now() - started) / 1000);
    if (answer.status !== 200) throw new Error(text.slice(0, 500));
    isDone.yet = true;
    await others;
    if (call === 0) tell(`${size} lives: answer`, text.length / 1024 / 1024, 'MiB');
  }
  const later = seconds.slice(1).sort((a, b) => a - b);
  tell(`${size} lives: first call`, seconds[0] ?? 0, 's');
  tell(`${size} lives: later calls, least`, later[0] ?? 0, 's');
  tell(`${size} lives: later calls, middle`, later[later.length >> 1] ?? 0, 's');
  tell(`${size} lives: later calls, most`, later.at(-1) ?? 0, 's');
  tell(`${size} lives: longest wait of others`, Math.max(...waits), 'ms');
}

async function watchOthers(isDone: { yet: boolean }, waits: number[]): Promise<void> {
  while (!isDone.yet) {
    const started = performance.now();
    await (await fetch(`${program.url}/health/live`)).text();
    waits.push(performance.now() - started);
    await new Promise((settle) => setTimeout(settle, 5));
  }
}
