import { join } from 'node:path';
import { type BenchServer, openServer } from '#tests/bench/open-server.ts';
import type { Tell } from '#tests/bench/report.ts';
import type { MadeRows } from './made-rows.ts';
import { type Cut, type Form, makeBodies } from './make-bodies.ts';
import { measurePeak } from './measure-peak.ts';
import { makeReferenceTable } from './reference-table.ts';
import { measureCopy, type Rates, runVariant } from './run-variant.ts';
import { sendBodies } from './send-bodies.ts';

const ROWS = 500_000;
const VEHICLES = 1_000;
const COPY = 'COPY of the same rows ready-made, binary, the faster of 1 and 2 connections';
const BODIES: Cut = '20,000 rows a body';

/** Deliveries over HTTP, two connections, against COPY of the same rows into a table of the same shape. */
export async function measureDeliveries(folder: string, scale: number, tell: Tell): Promise<void> {
  const vehicles = Math.max(20, Math.round(VEHICLES * scale));
  const made = { vehicles, rows: vehicles * (ROWS / VEHICLES) };
  await onServer(join(folder, 'deliveries'), made, 'no assessment', tell, async (server, measure) => {
    const all = { ...made, prefix: 'T' };
    tell({
      figure: 'COPY of the same rows ready-made, text, the faster of 1 and 2 connections',
      value: (await measureCopy(server, all, 0, 'text')).rate,
      unit: 'rows/s',
      reference: { what: COPY, value: (await measureCopy(server, all, 0, 'binary')).rate },
    });
    await measure('NDJSON', BODIES, 3);
    await measure('NDJSON', 'one body a connection', 1);
    await measure('NDJSON gzip', BODIES, 2);
    await measure('CSV', BODIES, 2);
  });
  const beside = 'assessment in the background';
  await onServer(join(folder, 'deliveries-assessed'), made, beside, tell, (_, measure) =>
    measure('NDJSON', BODIES, 2),
  );
  await measurePeak(folder, scale, tell);
}

type Measure = (form: Form, cut: Cut, rounds: number) => Promise<void>;

async function onServer(
  folder: string,
  made: Omit<MadeRows, 'prefix'>,
  beside: 'no assessment' | 'assessment in the background',
  tell: Tell,
  work: (server: BenchServer, measure: Measure) => Promise<void>,
): Promise<void> {
  const server = await openServer(folder, {
    SLIPDRIFT_WORK: beside === 'no assessment' ? 'elsewhere' : 'here',
  });
  try {
    // Its months must be there before the table of the same shape can have them.
    const bodies = makeBodies({ ...made, prefix: 'R0' }, 'NDJSON', BODIES);
    await sendBodies(server.url, bodies, 'NDJSON');
    await makeReferenceTable(server.client);
    let firstRound = 1;
    await work(server, async (form, cut, rounds) => {
      const rates = await runVariant(server, { form, cut, made, firstRound, rounds });
      firstRound += rounds;
      tellRates(tell, rates, `${form}, ${cut}, 2 connections, ${beside}`);
    });
    tell({
      figure: `peak memory of the server over all deliveries, ${beside}`,
      value: server.program.peakMiB(),
      unit: 'MiB',
      wanted: { at_most: 400 },
    });
  } finally {
    await server.stop();
  }
}

function tellRates(tell: Tell, rates: Rates, name: string): void {
  const reference = { what: COPY, value: rates.copy };
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
}
