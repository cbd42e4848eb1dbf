import { join } from 'node:path';
import { openServer } from '#tests/bench/open-server.ts';
import type { Tell } from '#tests/bench/report.ts';
import { timed } from '#tests/bench/timing.ts';
import { makeRow } from './made-rows.ts';
import { sendBody } from './send-bodies.ts';

const MIB = 1_048_576;
const VEHICLES = 1_000;
/** Turns of four hours until they would reach into the next year. */
const MOST_TURNS = 1_900;

/** Peak of resident memory of a server of its own that takes one body of 1 GiB, made as it is sent. */
export async function measurePeak(
  folder: string,
  scale: number,
  beside: 'no assessment' | 'assessment in the background',
  tell: Tell,
): Promise<void> {
  const bytes = Math.max(10, Math.round(1024 * scale)) * MIB;
  const server = await openServer(join(folder, `peak-${beside.replaceAll(' ', '-')}`), {
    SLIPDRIFT_MAX_BODY_MIB: String(bytes / MIB + 64),
    SLIPDRIFT_WORK: beside === 'no assessment' ? 'elsewhere' : 'here',
  });
  try {
    const atRest = server.program.peakMiB();
    let rows = 0;
    const seconds = await timed(async () => {
      rows = (await sendBody(server.url, streamLines(bytes), 'NDJSON')).stored;
    });
    const name = `one body of ${bytes / MIB} MiB, NDJSON, ${beside}`;
    tell({ figure: `${name}, new rows, 1 connection`, value: rows / seconds, unit: 'rows/s' });
    tell({
      figure: `peak memory of the server, ${name}`,
      value: server.program.peakMiB(),
      unit: 'MiB',
      reference: { what: 'peak memory of the server before, at rest', value: atRest },
      wanted: { at_most: 400 },
    });
  } finally {
    await server.stop();
  }
}

/** Lines of new rows, a thousand vehicles in turn, until there are so many bytes; a further thousand once these are through the year. */
function streamLines(bytes: number): ReadableStream<Uint8Array> {
  let turn = 0;
  let sent = 0;
  return new ReadableStream({
    pull(controller) {
      const fleet = Math.floor(turn / MOST_TURNS);
      const lines = Array.from({ length: VEHICLES }, (_, i) =>
        JSON.stringify(makeRow(`P${fleet}`, i, turn % MOST_TURNS)),
      );
      const chunk = Buffer.from(`${lines.join('\n')}\n`);
      sent += chunk.length;
      turn++;
      controller.enqueue(chunk);
      if (sent >= bytes) controller.close();
    },
  });
}
