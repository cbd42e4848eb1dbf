import { once } from 'node:events';
import { Agent, request } from 'node:http';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, beforeAll, it } from 'vitest';
import { readingFields } from '#server/contract/readings.ts';
import { fuzz, hold } from './fuzz.ts';
import { holdAnswer } from './hold-answer.ts';
import { inPieces, mutated, pieceSizes } from './mutate-bytes.ts';
import { goodReading, jsonLineSince, type SentReading } from './reading-arbitraries.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

let app: FuzzedApp;
const agent = new Agent({ keepAlive: true });
beforeAll(async () => {
  app = await startFuzzedApp();
});
afterAll(async () => {
  agent.destroy();
  await app.stop();
});

const FORMATS = { ndjson: 'application/x-ndjson', json: 'application/json', csv: 'text/csv' };
type Format = keyof typeof FORMATS;

interface Delivery {
  format: Format;
  gzip: boolean;
  /** readings that must be stored where nothing is spoilt */
  readings: SentReading[];
  wire: Buffer;
  /** bytes were changed: anything may be refused */
  spoilt: boolean;
  sizes: readonly number[];
}

const cellOf = (value: unknown): string => {
  if (value === undefined) return '';
  const text = Array.isArray(value) ? value.join(' ') : String(value);
  return `"${text.replaceAll('"', '""')}"`;
};

function write(format: Format, readings: SentReading[], strange: Buffer[]): Buffer {
  if (format === 'csv')
    return Buffer.from(
      [
        readingFields.join(','),
        ...readings.map((one) => readingFields.map((name) => cellOf(one[name])).join(',')),
      ].join('\n'),
    );
  const lines = [...readings.map((one) => Buffer.from(JSON.stringify(one))), ...strange];
  const between = Buffer.from(format === 'json' ? ',' : '\n');
  const joined = Buffer.concat(lines.flatMap((line, i) => (i === 0 ? [line] : [between, line])));
  return format === 'json' ? Buffer.concat([Buffer.from('['), joined, Buffer.from(']')]) : joined;
}

const delivery: fc.Arbitrary<Delivery> = fc
  .record({
    format: fc.constantFrom<Format>('ndjson', 'json', 'csv'),
    gzip: fc.boolean(),
    vehicle: fc.nat(40),
    sent: fc.array(goodReading(undefined, 2025), { maxLength: 4 }),
    strange: fc.array(jsonLineSince(2025), { maxLength: 2 }),
    how: fc.constantFrom('whole', 'spoilt', 'spoilt gzip', 'cut'),
    sizes: pieceSizes,
  })
  .chain(({ format, gzip, vehicle, sent, strange, how, sizes }) => {
    // Few vehicles, so that the assessment in the background stays small.
    const unit = `F-${vehicle}`;
    const readings = sent.map((one, i) => ({ ...one, vehicle: `${unit}-${i}` }) as SentReading);
    const plain = fc.constant(write(format, readings, format === 'ndjson' ? strange : []));
    const body = how === 'spoilt' ? mutated(plain) : plain;
    const packed = gzip ? body.map((bytes) => gzipSync(bytes)) : body;
    const wire =
      how === 'spoilt gzip'
        ? mutated(packed)
        : how === 'cut'
          ? packed.map((bytes) => bytes.subarray(0, -5))
          : packed;
    return wire.map((bytes) => ({
      format,
      gzip,
      readings,
      wire: bytes,
      spoilt: how !== 'whole',
      sizes,
    }));
  });

/** Sends a body in pieces, each in a chunk of its own. */
async function send({ format, gzip, wire, sizes }: Delivery): Promise<Response> {
  const sending = request(`${app.url}/api/readings`, {
    agent,
    method: 'POST',
    headers: {
      ...app.headers,
      'content-type': FORMATS[format],
      'transfer-encoding': 'chunked',
      ...(gzip ? { 'content-encoding': 'gzip' } : {}),
    },
  });
  const answered = once(sending, 'response');
  const pieces = inPieces(
    wire,
    sizes.map((size) => Math.max(size, Math.ceil(wire.length / 60))),
  );
  for (const piece of pieces) sending.write(piece);
  sending.end();
  const [response] = await answered;
  const parts: Buffer[] = [];
  for await (const part of response) parts.push(part);
  const headers = { 'content-type': String(response.headers['content-type']) };
  return new Response(Buffer.concat(parts), { status: response.statusCode, headers });
}

const near = (a: unknown, b: number): boolean => Math.abs(Number(a) - b) <= 2e-7 * Math.abs(b) + 1e-30;

it('stores of a delivery over HTTP what it answers, and reads back what was sent', async () => {
  await fuzz('delivery', delivery, async (sent) => {
    const response = await send(sent);
    const said = () => `${sent.format} ${sent.gzip}: ${answer.text.slice(0, 600)}`;
    const answer = await holdAnswer(response, 'POST /api/readings');
    const reply = answer.status === 200 ? JSON.parse(answer.text) : JSON.parse(answer.text).delivery;
    if (reply !== undefined) {
      const { received, stored, duplicate, conflicting, refused } = reply;
      hold(received === stored + duplicate + refused && conflicting <= duplicate, said);
      const path = `/api/receipts/${reply.receipt}`;
      const kept = JSON.parse((await holdAnswer(await app.ask(path), path)).text);
      hold(kept.received === received && kept.stored === stored, said);
      hold(
        kept.refused_lines_total === refused && kept.refused_lines.length === Math.min(refused, 100),
        said,
      );
      hold(kept.complete === (answer.status === 200), said);
    }
    if (!sent.spoilt && sent.readings.length > 0) hold(answer.status === 200, said);
    // A reading that was there already keeps its first content.
    if (sent.spoilt || sent.readings.length === 0 || reply.duplicate > 0) return;
    const wanted = sent.readings.map(({ vehicle: unit, at }) => ({ unit, at: new Date(at) }));
    const rows = await app.client`
      select unit, readings.at, readings.odometer_km, slip_rpm, duty_pct, gear
      from jsonb_to_recordset(${JSON.stringify(wanted)}::jsonb) as wanted (unit text, at timestamptz)
      join vehicles using (unit) join readings on readings.vehicle = vehicles.key and readings.at = wanted.at`;
    hold(
      rows.length === sent.readings.length,
      () => `${rows.length} of ${sent.readings.length} rows; ${said()}`,
    );
    for (const row of rows) {
      const reading = sent.readings[Number(String(row.unit).split('-').at(-1))] as SentReading;
      const number = (name: string) => Number(reading[name]);
      const odometer =
        reading.odometer_km === undefined ? number('odometer_mi') * 1.609344 : number('odometer_km');
      const slip =
        reading.slip_rpm === undefined ? number('engine_rpm') - number('turbine_rpm') : number('slip_rpm');
      hold(row.at.getTime() === Date.parse(reading.at) && near(row.odometer_km, odometer), () =>
        JSON.stringify(row),
      );
      hold(
        near(row.slip_rpm, slip) && near(row.duty_pct, number('duty_pct')),
        () => `${JSON.stringify(row)} for ${JSON.stringify(reading)}`,
      );
      hold(row.gear === (reading.gear ?? null), () => JSON.stringify(row));
    }
  });
});
