import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { ranking } from '#server/contract/ranking.ts';
import { troubleCode } from '#server/contract/trouble-codes.ts';
import { vehicleDetail, vehicleHistory } from '#server/contract/vehicle.ts';
import { drivePlainly } from '#tests/helpers/drive-plainly.ts';
import { makeReading, toNdjson } from '#tests/helpers/make-reading.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

const DAY_MS = 86_400_000;
const end = new Date('2026-03-04T00:00:00Z');
const days = 60;
const units = ['C-1', 'C-2', 'C-3', 'C-4', 'C-5'];
const startKm = 80_000;
const kmPerDay = 200;
const nowKm = startKm + days * kmPerDay;
const replacedKm = startKm + 50 * kmPerDay;

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, end);
  const start = new Date(end.getTime() - days * DAY_MS);
  const fleet = units.map((unit) => ({ unit, firstKm: startKm, kmPerDay, slipOn: () => 14 }));
  const readings = drivePlainly(fleet, start, days, 5);
  const withCodes = readings.map((reading) => {
    const day = Math.floor((Date.parse(reading.at) - start.getTime()) / DAY_MS);
    if (reading.vehicle === 'C-1' && [40, 44, 57].includes(day))
      return { ...reading, codes: [day === 44 ? 'p0741' : 'P0741'] };
    if (reading.vehicle === 'C-2' && day === 40) return { ...reading, codes: ['P0741'] };
    if (reading.vehicle === 'C-3' && day === 50) return { ...reading, codes: ['spn:9573 fmi:7', 'P1999'] };
    if (reading.vehicle === 'C-4' && day === 58) return { ...reading, codes: ['SPN573/FMI7'] };
    return reading;
  });
  const sent = await app.post('/api/readings', toNdjson(withCodes), {
    'content-type': 'application/x-ndjson',
  });
  expect(sent.status).toBe(200);
  await assess();
});
afterAll(() => app?.stop());

const assess = () => app.post('/api/assess', {});
const send = async (body: unknown) => {
  const answer = await app.post('/api/codes', body);
  return { status: answer.status, reply: await answer.json() };
};
const remove = (code: string) =>
  fetch(`${app.url}/api/codes/${encodeURIComponent(code)}`, {
    method: 'DELETE',
    headers: { authorization: `Bearer ${TEST_KEY}` },
  });
const list = async () => z.array(troubleCode).parse(await (await app.get('/api/codes')).json());
const touched = async () =>
  (
    await app.client`select unit from touched_vehicles t join vehicles v on v.key = t.vehicle order by unit`
  ).map((row) => row.unit);
async function rowOf(unit: string) {
  const { rows } = ranking.parse(await (await app.get(`/api/ranking?q=${unit}`)).json());
  const [row] = rows;
  if (row === undefined) throw new Error(`${unit} is not on the list`);
  return row;
}
const read = async (path: string) => (await app.get(path)).json();
const historyOf = async (unit: string) =>
  vehicleHistory.parse(await read(`/api/vehicles/${unit}/history`)).events.map(({ text }) => text);

describe('the first list', () => {
  // Numbers and names from memory of SAE J2012 and SAE J1939, as the source of each says.
  it('has the codes that name the converter clutch, each with meaning and source, all of them counting', async () => {
    const codes = await list();
    expect(codes.map(({ code }) => code)).toEqual(
      expect.arrayContaining([
        ...['P0740', 'P0741', 'P0742', 'P0743', 'P0744', 'P0894', 'P2761', 'P2762', 'P2763', 'P2764'],
        ...['SPN 573', 'SPN 740'],
      ]),
    );
    expect(codes.every(({ counts, meaning }) => counts && meaning !== '')).toBe(true);
    expect(codes.every(({ source }) => /^SAE J(2012|1939), from memory; check/.test(source))).toBe(true);
    expect(codes.map(({ code }) => code)).toEqual(codes.map(({ code }) => code).sort());
  });
});

describe('a vehicle with a listed code', () => {
  it('is at least book with the code named and its meaning beside it, where slip is flat', async () => {
    const row = await rowOf('C-1');
    expect(row).toMatchObject({ grade: 'book', pattern: 'code_only' });
    expect(row.reasons[0]).toBe(
      'Trouble code P0741 (converter clutch performance, or stuck off), 18 times, last on 1 Mar 2026',
    );
    expect(row.reasons.join()).toMatch(/Slip has held at/);
    const { sentence } = vehicleDetail.parse(await read('/api/vehicles/C-1'));
    expect(sentence).toBe(`${row.reasons[0]}.`);
  });

  it('is so where the code came as a J1939 pair in a spelling of its own, stored as it came', async () => {
    expect((await rowOf('C-4')).reasons[0]).toMatch(
      /^Trouble code SPN 573 FMI 7 \(converter lockup engaged\), 6 times/,
    );
    expect(
      await app.client`select distinct codes from readings where codes @> array['SPN573/FMI7']`,
    ).toHaveLength(1);
  });

  it('is so where there is hardly a reading, and where none is usable', async () => {
    const [at, later] = ['2026-03-03T20:00:00Z', '2026-03-03T21:00:00Z'];
    await app.post('/api/readings', [
      makeReading({ vehicle: 'few', at, codes: ['P0743'] }),
      makeReading({ vehicle: 'cold', at: later, fluid_c: 20, codes: ['P0743'] }),
    ]);
    await assess();
    for (const unit of ['few', 'cold']) {
      const row = await rowOf(unit);
      expect([unit, row.grade, row.pattern]).toEqual([unit, 'book', 'code_only']);
      expect(row.reasons).toEqual([
        'Trouble code P0743 (converter clutch circuit, electrical), once, on 3 Mar 2026',
      ]);
    }
    expect((await rowOf('cold')).missing.join()).toMatch(/passed the gate/);
  });

  it('has all spellings of it as one line of its history', async () => {
    const lines = (await historyOf('C-1')).filter((text) => text.startsWith('Trouble code'));
    expect(lines).toEqual([
      'Trouble code P0741 (converter clutch performance, or stuck off) first seen; 18 times, last on 1 Mar 2026',
    ]);
    expect(await historyOf('C-3')).toEqual(
      expect.arrayContaining(['Trouble code P1999 first seen; 6 times, last on 22 Feb 2026']),
    );
  });
});

describe('a replacement on record', () => {
  it('ends what a code before it says', async () => {
    expect((await rowOf('C-2')).grade).toBe('book');
    await app.post('/api/lives', [
      { vehicle: 'C-2', fitted_km: 0, source: 'original' },
      { vehicle: 'C-2', fitted_km: replacedKm, source: 'rebuilt' },
    ]);
    await assess();
    const row = await rowOf('C-2');
    expect(['steady', 'unknown']).toContain(row.grade);
    expect(row.reasons.join()).not.toMatch(/Trouble code/);
    expect((await historyOf('C-2')).join('\n')).toMatch(/Trouble code P0741/);
  });

  it('does so before the first reading after it', async () => {
    expect((await rowOf('C-4')).grade).toBe('book');
    await app.post('/api/lives', { vehicle: 'C-4', fitted_km: nowKm + 20, source: 'new' });
    await assess();
    expect(await rowOf('C-4')).toMatchObject({ grade: 'unknown', reasons: [], pattern: 'none' });
  });

  it('does so by its date, where its mileage was rounded down', async () => {
    const life = { vehicle: 'C-1', fitted_km: startKm + 54 * kmPerDay, source: 'new' };
    await app.post('/api/lives', life);
    await assess();
    expect((await rowOf('C-1')).grade).toBe('book');
    await app.post('/api/lives', { ...life, fitted_at: '2026-03-02T12:00:00Z' });
    await assess();
    expect((await rowOf('C-1')).grade).not.toBe('book');
  });
});

describe('a change of the list', () => {
  it('flags the vehicles that had sent the code, and only those; switched off it unflags them', async () => {
    expect((await rowOf('C-3')).grade).toBe('steady');
    const code = { code: 'spn 9573', meaning: 'lockup valve of our own buses', source: 'workshop manual' };
    expect(await send(code)).toEqual({ status: 200, reply: { created: 1, changed: 0, unchanged: 0 } });
    expect(await touched()).toEqual(['C-3']);
    await assess();
    const row = await rowOf('C-3');
    expect(row).toMatchObject({ grade: 'book', pattern: 'code_only' });
    expect(row.reasons[0]).toMatch(/^Trouble code SPN 9573 FMI 7 \(lockup valve of our own buses\), 6 times/);

    expect((await send({ code: 'SPN 9573', counts: false })).reply).toMatchObject({ changed: 1 });
    expect(await touched()).toEqual(['C-3']);
    await assess();
    expect((await rowOf('C-3')).grade).toBe('steady');
    expect((await historyOf('C-3')).join()).toMatch(/SPN 9573 FMI 7 \(lockup valve of our own buses\)/);
    expect((await list()).find((one) => one.code === 'SPN 9573')).toMatchObject({
      ...code,
      code: 'SPN 9573',
      counts: false,
    });
  });

  it('unflags them when the code is taken off the list', async () => {
    await send({ code: 'P1999', meaning: 'of our own' });
    await assess();
    expect((await rowOf('C-3')).grade).toBe('book');
    const answer = await remove('p1999');
    expect([answer.status, await answer.text()]).toEqual([204, '']);
    expect(await touched()).toEqual(['C-3']);
    await assess();
    expect((await rowOf('C-3')).grade).toBe('steady');
  });

  it('of meaning alone asks for no assessment, and shows at once', async () => {
    await send({ code: 'P1999', meaning: 'of our own' });
    await assess();
    expect((await send({ code: 'P1999', meaning: 'our lockup relay' })).reply).toMatchObject({ changed: 1 });
    expect(await touched()).toEqual([]);
    expect((await rowOf('C-3')).reasons[0]).toMatch(/^Trouble code P1999 \(our lockup relay\)/);
    expect((await send({ code: 'P1999', meaning: 'our lockup relay' })).reply).toMatchObject({
      unchanged: 1,
    });
    await remove('P1999');
    await assess();
  });

  it('that is wrong is refused whole, each fault with its element', async () => {
    const before = await list();
    const { status, reply } = await send([
      { code: 'P0745', meaning: 'fine' },
      { code: '0741', meaning: 'no letter' },
      { code: 'P1998' },
      { code: 'p0745', meaning: 'twice' },
      { code: 'P1997', meaning: '', counts: 'yes', sorce: 'x' },
      { meaning: 'none' },
    ]);
    expect(status).toBe(400);
    expect(reply.code).toBe('invalid_request');
    expect(reply.errors).toMatchObject([
      { line: 2, field: 'code', message: expect.stringMatching(/such as P0741/) },
      { line: 4, message: 'is the same P0745 as element 1; send each once' },
      { line: 5, field: 'sorce', message: 'is not a known field' },
      { line: 5, field: 'meaning' },
      { line: 5, field: 'counts' },
      { line: 6, field: 'code', message: 'is missing' },
    ]);
    expect(await list()).toEqual(before);
    const unknown = await send([{ code: 'P0745', meaning: 'fine' }, { code: 'P1998' }]);
    expect(unknown.reply.errors).toEqual([
      { line: 2, field: 'meaning', message: 'is missing: P1998 is not listed yet' },
    ]);
    expect(await list()).toEqual(before);
  });

  it.each([
    ['P1998', 404, 'not_found'],
    ['0741', 400, 'invalid_request'],
    ["'; drop table trouble_codes; --", 400, 'invalid_request'],
  ])('cannot take %s away', async (code, status, problem) => {
    const answer = await remove(code);
    expect(answer.status).toBe(status);
    expect(answer.headers.get('content-type')).toBe('application/problem+json');
    expect(await answer.json()).toMatchObject({ code: problem });
  });
});

it('appears in the interface description', async () => {
  const { paths, components } = await (await app.get('/api/openapi.json')).json();
  expect(Object.keys(paths['/api/codes'])).toEqual(expect.arrayContaining(['get', 'post']));
  expect(Object.keys(paths['/api/codes/{code}'].delete.responses)).toEqual(
    expect.arrayContaining(['204', '400', '404']),
  );
  expect(components.schemas.TroubleCodeInput.properties.code).toMatchObject({
    type: 'string',
    maxLength: 32,
  });
  expect(components.schemas.TroubleCodeInput.required).toEqual(['code']);
  expect(components.schemas.TroubleCode.required).toContain('changed_at');
});
