import { gzipSync } from 'node:zlib';

/** Set-up key of the server that is measured. */
export const MEASURE_KEY = 'key-of-the-measurement';

const ROWS = 200_000;
const VEHICLES = 1_000;
const LINES = 20_000;

type Figure = { figure: string; value: number; unit: string };

/** Rows per second over HTTP: new rows as NDJSON, gzip, CSV and JSON, then the same again as duplicates. */
export async function measureDeliveries(url: string): Promise<Figure[]> {
  const figures: Figure[] = [];
  const add = (figure: string, seconds: number) =>
    figures.push({ figure, value: Math.round(ROWS / seconds), unit: 'rows/s' });
  const ndjson = makeBodies('M', (rows) => rows.map((row) => JSON.stringify(row)).join('\n'));
  add('deliveries, NDJSON, new rows, 1 connection', await send(url, ndjson, 'application/x-ndjson', 1));
  add('deliveries, NDJSON, duplicates, 1 connection', await send(url, ndjson, 'application/x-ndjson', 1));
  const two = makeBodies('N', (rows) => rows.map((row) => JSON.stringify(row)).join('\n'));
  add('deliveries, NDJSON, new rows, 2 connections', await send(url, two, 'application/x-ndjson', 2));
  const zipped = makeBodies('G', (rows) => gzipSync(rows.map((row) => JSON.stringify(row)).join('\n')));
  add(
    'deliveries, NDJSON gzip, new rows, 1 connection',
    await send(url, zipped, 'application/x-ndjson', 1, 'gzip'),
  );
  const csv = makeBodies('C', (rows) => {
    const names = Object.keys(rows[0] ?? {});
    return [names.join(','), ...rows.map((row) => Object.values(row).join(','))].join('\n');
  });
  add('deliveries, CSV, new rows, 1 connection', await send(url, csv, 'text/csv', 1));
  const json = makeBodies('J', (rows) => JSON.stringify(rows));
  add('deliveries, JSON, new rows, 1 connection', await send(url, json, 'application/json', 1));
  return figures;
}

type Body = string | Uint8Array<ArrayBuffer>;
type Row = Record<string, string | number>;

function makeBodies(prefix: string, write: (rows: Row[]) => Body): Body[] {
  const start = Date.UTC(2026, 0, 5);
  const bodies: Body[] = [];
  for (let from = 0; from < ROWS; from += LINES) {
    const rows = Array.from({ length: LINES }, (_, k): Row => {
      const i = from + k;
      const turn = Math.floor(i / VEHICLES);
      return {
        vehicle: `${prefix}-${1000 + (i % VEHICLES)}`,
        at: new Date(start + turn * 4 * 3_600_000 + (i % VEHICLES) * 1000).toISOString(),
        odometer_km: 100_000 + turn * 35.5,
        slip_rpm: 10 + ((i * 7919) % 97) / 10,
        duty_pct: 60 + ((i * 31) % 40),
        fluid_c: 70 + ((i * 17) % 30),
        load_pct: 20 + ((i * 13) % 60),
        torque_pct: 15 + ((i * 11) % 60),
        speed_kmh: 40 + ((i * 5) % 50),
        gear: 4 + (i % 3),
        seconds: 10,
      };
    });
    bodies.push(write(rows));
  }
  return bodies;
}

async function send(
  url: string,
  bodies: Body[],
  type: string,
  connections: number,
  encoding?: string,
): Promise<number> {
  const queue = [...bodies];
  const started = performance.now();
  const work = async () => {
    for (let body = queue.shift(); body !== undefined; body = queue.shift()) {
      const reply = await fetch(`${url}/api/readings`, {
        method: 'POST',
        headers: {
          authorization: `Bearer ${MEASURE_KEY}`,
          'content-type': type,
          ...(encoding === undefined ? {} : { 'content-encoding': encoding }),
        },
        body,
      });
      const answer = await reply.json();
      if (reply.status !== 200 || answer.refused !== 0) throw new Error(JSON.stringify(answer));
    }
  };
  await Promise.all(Array.from({ length: connections }, work));
  return (performance.now() - started) / 1000;
}
