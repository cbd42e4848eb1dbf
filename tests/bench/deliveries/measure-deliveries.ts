import { join } from 'node:path';
import { holdAssessment } from '#tests/bench/hold-assessment.ts';
import { openServer } from '#tests/bench/open-server.ts';
import type { Tell } from '#tests/bench/report.ts';
import { type Cut, type Form, makeBodies } from './make-bodies.ts';
import { measurePeak } from './measure-peak.ts';
import { makeReferenceTable } from './reference-table.ts';
import { measureCopy, runVariant } from './run-variant.ts';
import { sendBodies } from './send-bodies.ts';

const ROWS = 500_000;
const VEHICLES = 1_000;
const COPY = 'COPY of the same rows ready-made, binary, the faster of 1 and 2 connections';

/** Deliveries over HTTP, two connections, against COPY of the same rows into a table of the same shape. */
export async function measureDeliveries(folder: string, scale: number, tell: Tell): Promise<void> {
  const vehicles = Math.max(20, Math.round(VEHICLES * scale));
  const made = { vehicles, rows: vehicles * (ROWS / VEHICLES) };
  const server = await openServer(join(folder, 'deliveries'));
  try {
    // Its months must be there before the table of the same shape can have them.
    await sendBodies(
      server.url,
      makeBodies({ ...made, prefix: 'R0' }, 'NDJSON', '20,000 rows a body'),
      'NDJSON',
    );
    await makeReferenceTable(server.client);
    let firstRound = 1;
    const measure = async (form: Form, cut: Cut, rounds: number, assessing: boolean) => {
      const rates = await runVariant(server, { form, cut, made, firstRound, rounds });
      firstRound += rounds;
      const reference = { what: COPY, value: rates.copy };
      const name = `${form}, ${cut}, 2 connections, assessment ${assessing ? 'in the background' : 'held off'}`;
      tell({
        figure: `deliveries, new rows, ${name}`,
        value: rates.fresh,
        unit: 'rows/s',
        reference,
        ratio: rates.freshRatio,
        wanted: { ratio_at_least: 0.7 },
      });
      tell({
        figure: `deliveries, duplicates, ${name}`,
        value: rates.repeated,
        unit: 'rows/s',
        reference,
        ratio: rates.repeatedRatio,
        wanted: { ratio_at_least: 1 },
      });
      for (const [what, value] of [
        ['new', rates.micros.fresh],
        ['duplicate', rates.micros.repeated],
      ] as const)
        tell({
          figure: `processor time of program and PostgreSQL, a ${what} row, ${name}`,
          value,
          unit: 'us',
          reference: { what: COPY, value: rates.micros.copy },
        });
    };
    const release = await holdAssessment(server.client);
    const all = { ...made, prefix: 'T' };
    tell({
      figure: 'COPY of the same rows ready-made, text, the faster of 1 and 2 connections',
      value: (await measureCopy(server, all, 0, 'text')).rate,
      unit: 'rows/s',
      reference: { what: COPY, value: (await measureCopy(server, all, 0, 'binary')).rate },
    });
    await measure('NDJSON', '20,000 rows a body', 3, false);
    await measure('NDJSON', 'one body a connection', 1, false);
    await measure('NDJSON gzip', '20,000 rows a body', 2, false);
    await measure('CSV', '20,000 rows a body', 2, false);
    await release();
    await measure('NDJSON', '20,000 rows a body', 2, true);
    tell({
      figure: 'peak memory of the server, all of these deliveries',
      value: server.program.peakMiB(),
      unit: 'MiB',
      wanted: { at_most: 400 },
    });
  } finally {
    await server.stop();
  }
  await measurePeak(folder, scale, tell);
}
