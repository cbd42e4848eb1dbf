import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { look } from '#server/contract/looks.ts';
import {
  expectedRows,
  MADE_START_S,
  MADE_VIN,
  makeCanLog,
  strayLines,
  toText,
} from '#tests/helpers/made-can-log.ts';
import { runSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

const CAN = { 'content-type': 'text/x-candump' };
const frames = makeCanLog(MADE_START_S);
const text = toText(frames, false);
const startMs = MADE_START_S * 1000;

let app: TestApp;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'slipdrift-can-'));
  app = await startApp();
});
afterAll(async () => {
  await app.stop();
  await rm(folder, { recursive: true, force: true });
});
beforeEach(async () => {
  await app.client`truncate readings, receipts, refused_lines, touched_vehicles, vehicles cascade`;
});

const stored = async () => [
  ...(await app.client`
    select v.unit as vehicle, r.at, r.odometer_km, r.slip_rpm, r.duty_pct, r.fluid_c, r.load_pct, r.torque_pct,
      r.throttle_pct, r.speed_kmh, r.seconds, r.gear, r.shifting, r.codes
    from readings r join vehicles v on v.key = r.vehicle order by r.at`),
];
const deliver = async (body: string | Blob, query = '', headers: Record<string, string> = CAN) => {
  const answer = await app.post(`/api/readings${query}`, body, headers);
  return { status: answer.status, reply: await answer.json() };
};

it('stores a log of five minutes value by value, under its VIN, and once', async () => {
  const { status, reply } = await deliver(text);
  expect(status).toBe(200);
  expect(reply).toMatchObject({ received: 31, stored: 31, refused: 0, refusals: [] });
  expect(await stored()).toEqual(expectedRows(MADE_VIN, startMs));
  const again = await deliver(new Blob([new Uint8Array(gzipSync(toText(frames, true)))]), '', {
    ...CAN,
    'content-encoding': 'gzip',
  });
  expect(again.reply).toMatchObject({ received: 31, stored: 0, duplicate: 31, conflicting: 0 });
});

it('stores it for the registered vehicle that has the VIN, and for the one that is named', async () => {
  await app.post('/api/vehicles', { id: 'B-12', vin: MADE_VIN.toLowerCase() });
  expect((await deliver(text)).reply.stored).toBe(31);
  expect((await stored()).map(({ vehicle }) => vehicle)).toEqual(new Array(31).fill('B-12'));
  expect((await deliver(text, '?vehicle=T-9&window_s=60')).reply.received).toBe(6);
});

it('dates a log that counts from its own start by the start that is given, and asks for it', async () => {
  const own = toText(makeCanLog(0), false);
  const asked = await deliver(own);
  expect(asked.status).toBe(400);
  expect(asked.reply).toMatchObject({ code: 'invalid_request', errors: [{ field: 'start' }] });
  expect(await stored()).toEqual([]);
  const start = '2026-02-01T08:00:00Z';
  expect((await deliver(own, `?start=${start}`)).reply.stored).toBe(31);
  expect(await stored()).toEqual(expectedRows(MADE_VIN, Date.parse(start)));
});

it('keeps a window without an odometer as a line that can be completed', async () => {
  const odometerless = frames.filter(({ id }) => (id % 2 ** 24) >> 8 !== 65_217);
  const { reply } = await deliver(toText(odometerless, false));
  expect(reply).toMatchObject({ received: 31, stored: 0, refused: 31 });
  expect(reply.refusals[0]).toEqual({
    line: strayLines.length + 1,
    field: 'odometer_km',
    message: 'is missing (or give odometer_mi)',
  });
  const receipt = await (await app.get(`/api/receipts/${reply.receipt}`)).json();
  const { raw } = receipt.refused_lines[0];
  const completed = { ...JSON.parse(raw), odometer_km: 120_001.125 };
  expect((await app.post('/api/readings', [completed])).status).toBe(200);
  expect((await stored())[0]).toEqual(expectedRows(MADE_VIN, startMs)[0]);
});

it('declines what is no log of such frames, with the reason', async () => {
  const refused = await deliver('vehicle,at\nB-1,2026-01-01T00:00:00Z\n');
  expect(refused.status).toBe(400);
  expect(refused.reply).toMatchObject({
    code: 'body_empty',
    detail:
      'The log has no data frame with a 29-bit identifier. Its lines are mostly other text. Nothing was stored.',
  });
  expect((await deliver('', '')).reply.detail).toBe('The log is empty. Nothing was stored.');
});

it('shows what a log holds before anything of it is stored', async () => {
  const answer = await app.post('/api/readings/look', text, CAN);
  expect(answer.status).toBe(200);
  const seen = look.parse(await answer.json());
  expect(seen).toMatchObject({ format: 'can', lines: 31, good: 31, bad: 0, lacks: [], whole: true });
  expect(seen.vehicles).toEqual([{ vehicle: MADE_VIN, readings: 31, known: false }]);
  expect(seen.can).toMatchObject({
    lines: frames.length + strayLines.length,
    frames: frames.length,
    first_s: MADE_START_S,
    last_s: MADE_START_S + 299.99,
    clock: 'since_1970',
    vins: [{ vin: MADE_VIN, source: 0, warning: null }],
    windows: { steady_lockup: 23, not: 8, without: 0 },
  });
  expect(seen.can?.left_out.map(({ why, lines, first_line }) => [why, lines, first_line])).toEqual([
    ['broken lines', 1, 1],
    ['notes of frames that the logger dropped', 1, 2],
    ['frames with an 11-bit identifier', 1, 3],
    ['remote frames', 1, 4],
    ['CAN FD frames', 1, 5],
    ['error frames of the interface', 1, 6],
  ]);
  expect(seen.can?.signals.find(({ spn }) => spn === 92)).toMatchObject({ low: 55, high: 127, source: 0 });
  expect(await stored()).toEqual([]);
  const own = await app.post('/api/readings/look', toText(makeCanLog(0), true), CAN);
  const { lacks, can } = look.parse(await own.json());
  expect(lacks.map(({ field }) => field)).toEqual(['start']);
  expect(can?.clock).toBe('from_start');
});

it('imports a log at the command line, told by its content, after a look', async () => {
  const path = join(folder, 'drive.log.gz');
  await writeFile(path, gzipSync(toText(makeCanLog(0), true)));
  const run = async (...more: string[]) => {
    const program = runSlipdrift(['import', '--to', app.url, '--key', TEST_KEY, ...more, path]);
    return { code: await program.ended, said: program.output() };
  };
  const given = ['--vehicle', 'T-9', '--start', '2026-01-05T10:00:00Z'];
  const looked = await run('--look', ...given);
  expect(looked.code).toBe(0);
  expect(looked.said).toContain('drive.log.gz: a CAN log, gzip');
  expect(looked.said).toContain('windows: 23 of steady lockup, 8 without, 0 that make no reading');
  expect(looked.said).toContain(`VIN ${MADE_VIN} from address 0`);
  expect(await stored()).toEqual([]);
  const imported = await run(...given);
  expect(imported).toMatchObject({ code: 0, said: expect.stringContaining('31 stored') });
  expect(await stored()).toEqual(expectedRows('T-9', startMs));
});
