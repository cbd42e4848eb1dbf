import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import type { Line } from '#server/services/intake/line.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { readPayload } from './read-payload.ts';
import { vehicleOfTopic } from './vehicle-of-topic.ts';

const { vehicle: _, ...bare } = makeReading({ at: '2026-03-04T05:06:07Z' });
const LIMIT = 1_048_576;

async function read(payload: string | Buffer, vehicle: string | null = 'T-7'): Promise<Line[]> {
  const lines: Line[] = [];
  for await (const block of readPayload(Buffer.from(payload), vehicle, LIMIT)) lines.push(...block);
  return lines;
}

const csv = `at,odometer_km,slip_rpm,duty_pct\n2026-03-04T05:06:07Z,1000,12,85\n2026-03-04T05:06:17Z,1000,13,85\n`;

it.each([
  ['one reading', JSON.stringify(bare), 1],
  ['one over several lines', JSON.stringify(bare, null, 2), 1],
  ['a list', JSON.stringify([bare, bare]), 2],
  ['an object with readings', ` {"readings": ${JSON.stringify([bare, bare])}}`, 2],
  ['one a line', `${JSON.stringify(bare)}\n\n${JSON.stringify(bare)}\n`, 2],
  ['CSV', csv, 2],
  ['CSV with a byte order mark', `\ufeff${csv}`, 2],
  ['gzip', gzipSync(JSON.stringify([bare, bare])), 2],
  ['gzip of CSV', gzipSync(csv), 2],
])('reads %s, and takes the vehicle from the topic', async (_what, payload, count) => {
  const lines = await read(payload);
  expect(lines.map(({ errors, value }) => [errors, (value as { vehicle?: string }).vehicle])).toEqual(
    Array.from({ length: count }, () => [null, 'T-7']),
  );
  expect(lines.every(({ raw }) => JSON.parse(raw).vehicle === 'T-7')).toBe(true);
});

it('refuses a line that names another vehicle, and keeps the others', async () => {
  const lines = await read(JSON.stringify([{ ...bare, vehicle: 'T-8' }, { ...bare, vehicle: 'T-7' }, bare]));
  expect(lines.map(({ errors }) => errors)).toEqual([
    [{ field: 'vehicle', message: 'is another than that of the topic' }],
    null,
    null,
  ]);
});

it.each([
  ['no JSON', '{"odometer_km": 12', /ends too early/],
  ['another thing', 'hello', /neither JSON nor CSV/],
  ['bytes that are no text', Buffer.from([0xff, 0xfe, 0x00, 0x7b]), /neither JSON nor CSV/],
  ['broken gzip', gzipSync(csv).subarray(0, 40), /gzip|ended|end/i],
  ['gzip that unfolds past the limit', gzipSync(Buffer.alloc(2 * LIMIT, 32)), /larger than the limit/],
  ['a list that breaks off', '[{"at": 1}, {"at"', /./],
])('makes of %s a line that says why, with its raw text and the vehicle', async (_what, payload, why) => {
  const lines = await read(payload);
  const bad = lines.filter(({ errors }) => errors !== null);
  expect(bad.length).toBeGreaterThan(0);
  expect(JSON.stringify(bad.at(-1)?.errors)).toMatch(why);
  expect(bad.at(-1)?.raw).not.toBe('');
  expect(bad.at(-1)?.value).toEqual({ vehicle: 'T-7' });
});

it('takes an empty message for what it is: a broker told to forget', async () => {
  expect(await read('')).toEqual([]);
});

it('finds the vehicle where the filter has +', () => {
  expect(vehicleOfTopic('slipdrift/+/readings', 'slipdrift/T-7/readings')).toBe('T-7');
  expect(vehicleOfTopic('+/#', 'T-7/a/b')).toBe('T-7');
  expect(vehicleOfTopic('$share/pool/fleet/+', 'fleet/T-7')).toBe('T-7');
  expect(vehicleOfTopic('fleet/#', 'fleet/T-7')).toBeNull();
});
