import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Faults, KeptLines, LetIn, LineRule, RuleReply } from '#server/contract/intake.ts';
import type { Problem } from '#server/contract/problems.ts';
import { makeReading, minutesLater, toNdjson } from '#tests/helpers/make-reading.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { type SmallIntake, startSmallIntake } from '#tests/helpers/small-intake.ts';

const NDJSON = { 'content-type': 'application/x-ndjson' };
const CSV = { 'content-type': 'text/csv' };

let app: SmallIntake;
beforeAll(async () => {
  app = await startSmallIntake();
});
afterAll(() => app.stop());
beforeEach(() => app.empty());

async function ask<T>(path: string): Promise<T> {
  const answer = await app.get(path);
  expect(answer.status, await answer.clone().text()).toBe(200);
  return (await answer.json()) as T;
}

const send = async <T>(path: string, body: unknown) => {
  const answer = await app.post(path, body);
  return { status: answer.status, reply: (await answer.json()) as T };
};
const listLines = (query = '') => ask<KeptLines>(`/api/refused/lines${query}`);
const statesOf = async () => (await listLines()).rows.map(({ state }) => state);

/** Readings of one vehicle a minute apart, with what is wrong with all of them. */
const makeBad = (n: number, wrong: Record<string, unknown>, vehicle = 'B-1207') =>
  toNdjson(Array.from({ length: n }, (_, i) => makeReading({ vehicle, at: minutesLater(i), ...wrong })));

async function ruleOn(rule: LineRule, more: Record<string, unknown> = {}) {
  const { groups } = await ask<Faults>('/api/refused');
  return send<RuleReply>('/api/refused/rule', { fault: groups[0]?.fault, rule, ...more });
}

async function storedFields() {
  const rows = await app.client`
    select v.unit, r.at, r.fluid_c, r.odometer_km, r.duty_pct, r.speed_kmh, r.load_pct
    from readings r join vehicles v on v.key = r.vehicle order by r.at`;
  return rows.map((row) => ({ ...row }));
}

describe('one refused line', () => {
  it('goes in as it is corrected, under a receipt of its own, and counts for its sender', async () => {
    const csv = 'vehicle,at,odometer_km,slip_rpm,duty_pct\nB-7,2026-03-04T05:06:07Z,120000,18,185\n';
    const { reply } = await app.deliver(csv, CSV);
    const { rows } = await listLines(`?receipt=${reply.receipt}`);
    expect(rows).toMatchObject([
      {
        line: 2,
        raw: 'B-7,2026-03-04T05:06:07Z,120000,18,185',
        fault: 'duty_pct must be at most 100 %',
        state: 'open',
        readable: true,
        reading: { vehicle: 'B-7', duty_pct: 185 },
      },
    ]);
    const id = rows[0]?.id;
    const still = await send<Problem>(`/api/refused/${id}`, { raw: 'B-7,2026-03-04T05:06:07Z,120000,,85' });
    expect(still.status).toBe(400);
    expect(still.reply.errors).toEqual([
      { field: 'slip_rpm', message: 'is missing (or give engine_rpm and turbine_rpm)' },
    ]);
    expect(await statesOf()).toEqual(['open']);
    const done = await send<LetIn>(`/api/refused/${id}`, { raw: 'B-7,2026-03-04T05:06:07Z,120000,18,85' });
    expect(done).toMatchObject({ status: 200, reply: { let_in: 1, stored: 1, duplicate: 0 } });
    expect(await storedFields()).toMatchObject([{ unit: 'B-7', duty_pct: 85 }]);
    const [line] = (await listLines()).rows;
    expect(line).toMatchObject({
      state: 'let_in',
      settled_by: 'set-up key',
      let_in_receipt: done.reply.receipt,
      raw: 'B-7,2026-03-04T05:06:07Z,120000,18,185',
    });
    expect(await ask(`/api/receipts/${done.reply.receipt}`)).toMatchObject({ stored: 1, refused: 0 });
    expect(await ask(`/api/receipts/${reply.receipt}`)).toMatchObject({ refused: 1, refused_open: 0 });
    expect(await app.client`select sender, stored from sender_weeks`).toMatchObject([
      { sender: 'key:set-up key', stored: 1 },
    ]);
    const again = await send<Problem>(`/api/refused/${id}`, { raw: 'B-7,2026-03-04T05:06:07Z,120000,18,85' });
    expect([again.status, again.reply.code]).toEqual([409, 'conflict']);
    const [noted] =
      await app.client`select subject_id, after from changes where action = 'let_in' order by id desc limit 1`;
    expect(noted).toMatchObject({
      subject_id: 'duty_pct must be at most 100 %',
      after: { lines: 1, corrected: 'B-7,2026-03-04T05:06:07Z,120000,18,85' },
    });
  });

  it('of a receipt that does not say how it was read goes in by its fields', async () => {
    await app.deliver('vehicle,at,odometer_km,slip_rpm,duty_pct\nB-7,yesterday,120000,18,85\n', CSV);
    await app.client`update receipts set read_with = null`;
    const [line] = (await listLines()).rows;
    expect(line).toMatchObject({ readable: false, reading: null });
    const text = await send<Problem>(`/api/refused/${line?.id}`, { raw: line?.raw });
    expect(text.reply.errors[0]?.message).toBe('cannot be read again: give its fields');
    const reading = makeReading({ vehicle: 'B-7' });
    expect(await send(`/api/refused/${line?.id}`, { reading })).toMatchObject({ status: 200 });
    expect(await app.countReadings()).toBe(1);
  });

  it('goes in once, whoever corrects it at the same time', async () => {
    await app.deliver(makeBad(1, { duty_pct: 300 }), NDJSON);
    const [line] = (await listLines()).rows;
    const answers = await Promise.all(
      [85, 80, 75, 70].map((duty, i) =>
        send(`/api/refused/${line?.id}`, { reading: makeReading({ at: minutesLater(i), duty_pct: duty }) }),
      ),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409]);
    expect(await app.countReadings()).toBe(1);
    const receipts = await app.client`select id from receipts where content_type = 'corrected lines'`;
    expect(receipts).toHaveLength(1);
  });

  it('goes in, or is answered, whatever characters its correction holds', async () => {
    await app.deliver(makeBad(1, { duty_pct: 300 }), NDJSON);
    const [line] = (await listLines()).rows;
    const raw = `${JSON.stringify(makeReading({ maker: 'x\u0000\ud800' }))}\t`;
    expect((await send(`/api/refused/${line?.id}`, { raw: `\u0000${raw}` })).status).toBe(400);
    expect((await send(`/api/refused/${line?.id}`, { raw })).status).toBe(200);
    const rule = { kind: 'replace', find: '\u0000', with: '' };
    expect((await send('/api/refused/rule', { fault: line?.fault, rule })).status).toBe(400);
  });

  it('is laid aside with a note, and opened again', async () => {
    await app.deliver(makeBad(2, { duty_pct: 300 }), NDJSON);
    const [first, second] = (await listLines()).rows;
    const aside = { ids: [first?.id], state: 'laid_aside', note: 'A test of the workshop.' };
    expect((await send('/api/refused/state', aside)).reply).toEqual({ changed: 1 });
    expect((await send('/api/refused/state', aside)).reply).toEqual({ changed: 0 });
    expect(await statesOf()).toEqual(['laid_aside', 'open']);
    expect((await send<Problem>(`/api/refused/${first?.id}`, { reading: makeReading() })).status).toBe(409);
    expect((await ask<Faults>('/api/refused')).total).toBe(1);
    const open = { fault: second?.fault, state: 'open' };
    expect((await send('/api/refused/state', open)).reply).toEqual({ changed: 1 });
    expect(await statesOf()).toEqual(['open', 'open']);
    const noted =
      await app.client`select action, after from changes where subject = 'refused_lines' order by id desc limit 2`;
    expect(noted).toMatchObject([
      { action: 'opened_again', after: { lines: 1 } },
      { action: 'laid_aside', after: { lines: 1, note: 'A test of the workshop.' } },
    ]);
    const both = { ids: [1], fault: 'x', state: 'open' };
    expect((await send('/api/refused/state', both)).status).toBe(400);
  });
});

describe('faults', () => {
  it('gather lines with the same, over receipts, and are narrowed by receipt and sender', async () => {
    const first = await app.deliver(
      `${makeBad(2, { duty_pct: 300 })}\n${makeBad(1, { fluid_c: 900 })}`,
      NDJSON,
    );
    await app.deliver(makeBad(1, { duty_pct: 300 }, 'C-9'), NDJSON);
    const { total, groups } = await ask<Faults>('/api/refused');
    expect(total).toBe(4);
    expect(groups).toMatchObject([
      {
        field: 'duty_pct',
        message: 'must be at most 100 %',
        lines: 3,
        receipts: 2,
        senders: [{ id: 'key:set-up key', kind: 'key', name: 'set-up key' }],
        example: { line: 1 },
      },
      { field: 'fluid_c', lines: 1, receipts: 1 },
    ]);
    const own = await ask<Faults>(`/api/refused?receipt=${first.reply.receipt}`);
    expect(own.groups.map(({ lines }) => lines)).toEqual([2, 1]);
    expect((await ask<Faults>('/api/refused?sender=key:another')).total).toBe(0);
    expect((await app.get('/api/refused?receipt=7')).status).toBe(400);
  });

  it('that name the clock of the server are one for all lines', async () => {
    await app.deliver(makeBad(2, { at: '2199-01-01T00:00:00Z' }), NDJSON);
    const { groups } = await ask<Faults>('/api/refused');
    expect(groups).toMatchObject([{ fault: 'at is more than 24 hours ahead of the server', lines: 2 }]);
  });

  it('are pages of lines, one after the other', async () => {
    await app.deliver(makeBad(5, { duty_pct: 300 }), NDJSON);
    const first = await listLines('?limit=3');
    const rest = await listLines(`?limit=3&after_id=${first.rows.at(-1)?.id}`);
    expect([first.total, rest.total]).toEqual([5, 5]);
    expect([...first.rows, ...rest.rows].map(({ line }) => line)).toEqual([1, 2, 3, 4, 5]);
  });
});

describe('a rule', () => {
  it.each<[string, Record<string, unknown>, LineRule, Record<string, unknown>]>([
    ['leaves a field out', { fluid_c: 900 }, { kind: 'leave_out', field: 'fluid_c' }, { fluid_c: null }],
    [
      'takes a value for it',
      { duty_pct: null },
      { kind: 'take_value', field: 'duty_pct', value: 85 },
      { duty_pct: 85 },
    ],
    [
      'reads degF where degC was said',
      { fluid_c: 284 },
      { kind: 'unit', field: 'fluid_c', unit: 'degF' },
      { fluid_c: 140 },
    ],
    [
      'reads K where degF was said',
      { fluid_c: undefined, fluid_f: 485 },
      { kind: 'unit', field: 'fluid_f', unit: 'K' },
      { fluid_c: 211.85 },
    ],
    [
      'reads metres where km was said, and a number out of a text',
      { odometer_km: '120345500 m' },
      { kind: 'unit', field: 'odometer_km', unit: 'm' },
      { odometer_km: 120_345.5 },
    ],
    [
      'multiplies and adds',
      { load_pct: 2000 },
      { kind: 'reckon', field: 'load_pct', times: 0.05, plus: -10 },
      { load_pct: 90 },
    ],
    [
      'takes times in a zone, also in summer',
      { at: '2025-07-04 05:06:07' },
      { kind: 'zone', zone: 'Europe/Vienna' },
      { at: new Date('2025-07-04T03:06:07Z') },
    ],
    [
      'takes times at an offset',
      { at: '2025-07-04T05:06' },
      { kind: 'zone', zone: '-05:00' },
      { at: new Date('2025-07-04T10:06:00Z') },
    ],
    [
      "replaces text in the vehicle's name",
      { vehicle: `${'0'.repeat(60)}B-1207` },
      { kind: 'replace', find: '0'.repeat(60), with: '' },
      { unit: 'B-1207' },
    ],
  ])('%s', async (_, wrong, rule, expected) => {
    const { reply: delivered } = await app.deliver(makeBad(1, wrong), NDJSON);
    expect(delivered.refused).toBe(1);
    const dry = await ruleOn(rule);
    expect(dry).toMatchObject({
      status: 200,
      reply: { dry_run: true, lines: 1, good: 1, let_in: 0, faults: [], receipt: null },
    });
    expect(await app.countReadings()).toBe(0);
    const done = await ruleOn(rule, { dry_run: false });
    expect(done.reply).toMatchObject({ dry_run: false, lines: 1, good: 1, let_in: 1, stored: 1 });
    expect(await storedFields()).toMatchObject([expected]);
    expect(await statesOf()).toEqual(['let_in']);
  });

  it('of a zone reads the lines of a mapped file again as a whole', async () => {
    const mapping = {
      separator: ';',
      decimal: ',',
      columns: [
        { column: 'Bus', takes: 'vehicle' },
        { column: 'Zeit', takes: 'time' },
        { column: 'Stand', takes: 'odometer_km' },
        { column: 'Schlupf', takes: 'slip_rpm' },
        { column: 'Tastgrad', takes: 'duty_pct' },
      ],
      time: { zone: 'Europe/Vienna' },
    };
    const saved = await fetch(`${app.url}/api/mappings/yard`, {
      method: 'PUT',
      headers: {
        authorization: `Bearer ${(await import('#tests/helpers/test-key.ts')).TEST_KEY}`,
        'content-type': 'application/json',
      },
      body: JSON.stringify(mapping),
    });
    expect(saved.status, await saved.text()).toBeLessThan(300);
    const csv = 'Bus;Zeit;Stand;Schlupf;Tastgrad\nB-1;2025-03-30 02:30:00;120000,5;18,5;85\n';
    const { reply } = await app.deliver(csv, CSV, '?mapping=yard');
    expect(reply).toMatchObject({ stored: 0, refused: 1 });
    const done = await ruleOn({ kind: 'zone', zone: '+01:00' }, { dry_run: false });
    expect(done.reply).toMatchObject({ let_in: 1, stored: 1 });
    expect(await storedFields()).toMatchObject([
      { unit: 'B-1', at: new Date('2025-03-30T01:30:00Z'), odometer_km: 120_000.5, duty_pct: 85 },
    ]);
  });

  it('leaves open what it does not put right, and says why', async () => {
    const lines = [
      makeBad(2, { fluid_c: 200 * 1.8 + 32 }),
      makeBad(1, { fluid_c: 900, duty_pct: 300 }, 'C-9'),
    ];
    await app.deliver(lines.join('\n'), NDJSON);
    const { fault } =
      (await ask<Faults>('/api/refused')).groups.find(({ field }) => field === 'fluid_c') ?? {};
    const rule = { kind: 'unit', field: 'fluid_c', unit: 'degF' };
    const done = await send<RuleReply>('/api/refused/rule', { fault, rule, dry_run: false });
    expect(done.reply).toMatchObject({ let_in: done.reply.good, stored: 2 });
    const open = await listLines('?state=open');
    expect(open.rows.map(({ reading }) => reading?.vehicle)).toEqual(['C-9']);
    const gone = await send<Problem>('/api/refused/rule', {
      fault,
      rule: { ...rule, unit: 'K' },
      dry_run: false,
    });
    expect([200, 404]).toContain(gone.status);
  });

  it('acts once on each line, also when two run at the same time and a third corrects one of them', async () => {
    await app.deliver(makeBad(400, { duty_pct: 185 }), NDJSON);
    const { rows } = await listLines('?limit=1');
    const rule = { kind: 'reckon', field: 'duty_pct', plus: -100 } as const;
    const [a, b, one] = await Promise.all([
      ruleOn({ ...rule, times: 1 }, { dry_run: false }),
      ruleOn({ ...rule, times: 1, plus: -105 }, { dry_run: false }),
      send<LetIn>(`/api/refused/${rows[0]?.id}`, { reading: makeReading({ duty_pct: 90 }) }),
    ]);
    const letIn = [a, b].reduce((sum, { status, reply }) => sum + (status === 200 ? reply.let_in : 0), 0);
    expect(letIn + (one.status === 200 ? 1 : 0)).toBe(400);
    expect(await app.countReadings()).toBe(400);
    const sums = await app.client`
      select sum(received)::int as received, sum(stored)::int as stored
      from receipts where content_type = 'corrected lines'`;
    expect(sums).toMatchObject([{ received: 400, stored: 400 }]);
    expect(await app.client`select distinct state from refused_lines`).toMatchObject([{ state: 'let_in' }]);
  });

  it.each<[string, unknown]>([
    ['a field that every reading needs to be left out', { kind: 'leave_out', field: 'duty_pct' }],
    ['a field of no reading', { kind: 'take_value', field: 'colour', value: 1 }],
    ['a unit of another kind', { kind: 'unit', field: 'fluid_c', unit: 'km' }],
    ['a unit for what has none', { kind: 'unit', field: 'gear', unit: 'km' }],
    ['a zone that is none', { kind: 'zone', zone: 'Mars/Plain' }],
    ['an unknown kind', { kind: 'delete' }],
  ])('is refused with %s', async (_, rule) => {
    await app.deliver(makeBad(1, { duty_pct: 185 }), NDJSON);
    const { status, reply } = await ruleOn(rule as LineRule);
    expect([status, (reply as unknown as Problem).code]).toEqual([400, 'invalid_request']);
    expect(await statesOf()).toEqual(['open']);
  });
});

it('is for people of all depots', async () => {
  await app.deliver(makeBad(1, { duty_pct: 185 }), NDJSON);
  const planner = await signInAs(app, 'planner', { depots: ['north'] });
  for (const [path, body] of [
    ['/api/refused/1', { raw: 'x' }],
    ['/api/refused/state', { fault: 'x', state: 'open' }],
    ['/api/refused/rule', { fault: 'x', rule: { kind: 'zone', zone: 'UTC' } }],
  ] as const) {
    const answer = await fetch(`${app.url}${path}`, {
      method: 'POST',
      headers: { ...planner.headers, 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    expect([path, answer.status]).toEqual([path, 403]);
  }
});
