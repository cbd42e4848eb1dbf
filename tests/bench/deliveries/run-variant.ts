import type { BenchServer } from '#tests/bench/open-server.ts';
import { median } from '#tests/bench/timing.ts';
import type { MadeRows } from './made-rows.ts';
import { type Cut, type Form, makeBodies } from './make-bodies.ts';
import { type CopyFormat, copyReadyRows, readyRows } from './reference-table.ts';
import { sendBodies } from './send-bodies.ts';

export interface Variant {
  form: Form;
  cut: Cut;
  made: Omit<MadeRows, 'prefix'>;
  /** one more than the last; other vehicles each time */
  firstRound: number;
  rounds: number;
}

/** Rows a second, and their ratio to COPY of either form, round by round. */
export interface Rates {
  fresh: number;
  repeated: number;
  copy: Record<CopyFormat, { rate: number; freshRatio: number; repeatedRatio: number }>;
  /** processor time of program and PostgreSQL, microseconds a row */
  micros: Record<'fresh' | 'repeated' | 'copy', number>;
}

/** Rows a second by the clock, and what a row took of the processors. */
interface Pace {
  rate: number;
  micros: number;
}

/** Delivers new rows and the same again, each round beside COPY of these rows, which goes first every other time. */
export async function runVariant(
  server: BenchServer,
  { form, cut, made, firstRound, rounds }: Variant,
): Promise<Rates> {
  const seen: Record<'fresh' | 'repeated' | CopyFormat, Pace>[] = [];
  for (let round = firstRound; round < firstRound + rounds; round++) {
    const all = { ...made, prefix: `R${round}` };
    const bodies = makeBodies(all, form, cut);
    const deliver = async (fate: 'stored' | 'duplicate'): Promise<Pace> => {
      await server.client`checkpoint`;
      const before = server.processorSeconds();
      const answer = await sendBodies(server.url, bodies, form);
      if (answer[fate] !== made.rows) throw new Error(`of ${made.rows} rows ${answer[fate]} were ${fate}`);
      return {
        rate: made.rows / answer.seconds,
        micros: (1e6 * (server.processorSeconds() - before)) / made.rows,
      };
    };
    const copyBoth = async () => ({
      text: await measureCopy(server, all, round, 'text'),
      binary: await measureCopy(server, all, round, 'binary'),
    });
    const copyFirst = round % 2 === 1;
    const before = copyFirst ? await copyBoth() : null;
    const fresh = await deliver('stored');
    const copies = before ?? (await copyBoth());
    seen.push({ fresh, repeated: await deliver('duplicate'), ...copies });
  }
  const against = (format: CopyFormat) => ({
    rate: median(seen.map((round) => round[format].rate)),
    freshRatio: median(seen.map((round) => round.fresh.rate / round[format].rate)),
    repeatedRatio: median(seen.map((round) => round.repeated.rate / round[format].rate)),
  });
  return {
    fresh: median(seen.map(({ fresh }) => fresh.rate)),
    repeated: median(seen.map(({ repeated }) => repeated.rate)),
    copy: { text: against('text'), binary: against('binary') },
    micros: {
      fresh: median(seen.map(({ fresh }) => fresh.micros)),
      repeated: median(seen.map(({ repeated }) => repeated.micros)),
      copy: median(seen.map(({ text }) => text.micros)),
    },
  };
}

/** The faster of one connection and two, into the table emptied before. */
export async function measureCopy(
  { client, databaseUrl, processorSeconds }: BenchServer,
  made: MadeRows,
  round: number,
  format: CopyFormat,
): Promise<Pace> {
  const paces: Pace[] = [];
  for (const connections of [1, 2]) {
    const ready = readyRows(made, round, connections, format);
    await client`truncate bench_readings`;
    await client`checkpoint`;
    const before = processorSeconds();
    const rate = await copyReadyRows(databaseUrl, ready, made.rows);
    paces.push({ rate, micros: (1e6 * (processorSeconds() - before)) / made.rows });
  }
  return paces.reduce((best, one) => (one.rate > best.rate ? one : best));
}
