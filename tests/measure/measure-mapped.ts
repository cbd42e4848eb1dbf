import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { deliveryReply } from '#server/contract/receipts.ts';
import { foreignFlow } from '#tests/api/foreign-flow.ts';
import { longFlow } from '#tests/api/long-flow.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { startProgram } from './start-program.ts';

/**
 * `npm run measure:mapped`: a file of another form with a million rows, one in a hundred of them bad, streamed over HTTP and
 * read by a mapping; then values of a long layout that come sorted by their name, so that every moment waits for the last
 * of them. Counts must come true, or it fails.
 */
const KEY = 'key-of-the-measurement';
const ROWS = Number(process.argv[2] ?? 1_000_000);
const MOMENTS = 50_000;

interface Flow {
  mapping: unknown;
  body(): ReadableStream<Uint8Array>;
}

const folder = makeTemporaryFolder();
const server = await startProgram(['serve'], join(folder, 'data'), { PORT: '0', SLIPDRIFT_API_KEY: KEY });
const report = (what: string) => process.stdout.write(`${what}\n`);

async function ask(path: string, method: string, type: string, body: BodyInit): Promise<unknown> {
  const request = {
    method,
    headers: { authorization: `Bearer ${KEY}`, 'content-type': type },
    body,
    duplex: 'half',
  };
  const answer = await fetch(`${server.url}${path}`, request as RequestInit);
  const said: unknown = await answer.json();
  if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${JSON.stringify(said)}`);
  return said;
}

async function send(name: string, flow: Flow) {
  await ask(`/api/mappings/${name}`, 'PUT', 'application/json', JSON.stringify(flow.mapping));
  const startedMs = performance.now();
  const reply = deliveryReply.parse(
    await ask(`/api/readings?mapping=${name}&zone=UTC`, 'POST', 'text/csv', flow.body()),
  );
  const seconds = (performance.now() - startedMs) / 1000;
  return { reply, seconds, peakMiB: server.peakMiB() };
}

try {
  report(`server at rest: ${server.peakMiB().toFixed(0)} MiB`);
  const wide = foreignFlow(ROWS);
  const told = await send('wide', wide);
  const { received, stored, refused } = told.reply;
  if (received !== ROWS || stored !== ROWS - wide.bad || refused !== wide.bad)
    throw new Error(`lines went missing: ${JSON.stringify(told.reply)}`);
  report(
    `${ROWS} rows, ${refused} of them bad: ${told.seconds.toFixed(1)} s, ${Math.round(ROWS / told.seconds)} rows/s, peak ${told.peakMiB.toFixed(0)} MiB`,
  );
  const long = longFlow(MOMENTS);
  const joined = await send('long', long);
  if (joined.reply.stored !== MOMENTS || joined.reply.rows !== long.rows)
    throw new Error(`moments went missing: ${JSON.stringify(joined.reply)}`);
  report(
    `${long.rows} rows of ${MOMENTS} moments, by name: ${joined.seconds.toFixed(1)} s, ${Math.round(long.rows / joined.seconds)} rows/s, peak ${joined.peakMiB.toFixed(0)} MiB`,
  );
} finally {
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
}
