import { join } from 'node:path';
import { openServer } from '#tests/bench/open-server.ts';
import type { Tell } from '#tests/bench/report.ts';
import type { MadeRows } from './made-rows.ts';
import { type Cut, type Form, makeBodies } from './make-bodies.ts';
import { measurePeak } from './measure-peak.ts';
import { type CopyFormat, makeReferenceTable } from './reference-table.ts';
import { type Rates, runVariant } from './run-variant.ts';
import { sendBodies } from './send-bodies.ts';

const ROWS = 500_000;
const VEHICLES = 1_000;
/** COPY has its rows as text unless it is told otherwise: the goal is held against that, and the faster form told beside it. */
const COPY: Record<CopyFormat, string> = {
  text: 'COPY of the same rows ready-made as text, the faster of 1 and 2 connections',
  binary: 'COPY of the same rows ready-made in its binary form, the faster of 1 and 2 connections',
};
const BODIES: Cut = '20,000 rows a body';

/** Deliveries over HTTP, two connections, against COPY of the same rows into a table of the same shape. */
export async function measureDeliveries(folder: string, scale: number, tell: Tell): Promise<void> {
  const vehicles = Math.max(20, Math.round(VEHICLES * scale));
  const made = { vehicles, rows: vehicles * (ROWS / VEHICLES) };
  await onServer(join(folder, 'deliveries'), made, 'no assessment', tell, async (measure) => {
    await measure('NDJSON', BODIES, 3);
    await measure('NDJSON', 'one body a connection', 1);
    await measure('NDJSON gzip', BODIES, 2);
    await measure('CSV', BODIES, 2);
  });
  const beside = 'assessment in the background';
  await onServer(join(folder, 'deliveries-assessed'), made, beside, tell, (measure) =>
    measure('NDJSON', BODIES, 2),
  );
  await measurePeak(folder, scale, 'no assessment', tell);
  await measurePeak(folder, scale, beside, tell);
}

type Measure = (form: Form, cut: Cut, rounds: number) => Promise<void>;

async function onServer(
  folder: string,
  made: Omit<MadeRows, 'prefix'>,
  beside: 'no assessment' | 'assessment in the background',
  tell: Tell,
  work: (measure: Measure) => Promise<void>,
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
    await work(async (form, cut, rounds) => {
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
  for (const format of ['text', 'binary'] as const) {
    const { rate, freshRatio, repeatedRatio } = rates.copy[format];
    const reference = { what: COPY[format], value: rate };
    const wanted = (ratio_at_least: number) => (format === 'text' ? { wanted: { ratio_at_least } } : {});
    tell({
      figure: `deliveries, new rows, ${name}`,
      value: rates.fresh,
      unit: 'rows/s',
      reference,
      ratio: freshRatio,
      ...wanted(0.7),
    });
    tell({
      figure: `deliveries, duplicates, ${name}`,
      value: rates.repeated,
      unit: 'rows/s',
      reference,
      ratio: repeatedRatio,
      ...wanted(1),
    });
  }
  for (const [what, value] of [
    ['new', rates.micros.fresh],
    ['duplicate', rates.micros.repeated],
  ] as const)
    tell({
      figure: `processor time of program and PostgreSQL, a ${what} row, ${name}`,
      value,
      unit: 'us',
      reference: { what: COPY.text, value: rates.micros.copy },
    });
}
